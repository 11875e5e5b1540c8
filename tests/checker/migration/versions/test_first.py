"""The first tables, as databases of that release have them for ever."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import inspect

from workbook.checker.migration.versions import first

if TYPE_CHECKING:
    from workbook.checker.database import Database


def test_it_is_the_first() -> None:
    assert (first.revision, first.down_revision) == ("first", None)


@pytest.mark.parametrize(
    ("table", "columns"),
    [
        ("attempt", {"id", "step", "answer", "received", "outcome"}),
        ("hand_in", {"digest", "received"}),
    ],
)
def test_a_table_has_its_sheet_and_its_content(
    database: Database, table: str, columns: set[str]
) -> None:
    with database.read() as connection:
        found = {each["name"]: each for each in inspect(connection).get_columns(table)}
    sheet = {"number", "course", "lab", "revision", "student"}
    assert found.keys() == sheet | columns
    optional = {name for name, each in found.items() if each["nullable"]}
    assert optional == columns & {"outcome"}
