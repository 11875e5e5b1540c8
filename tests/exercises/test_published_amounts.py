"""Amounts from the literature, carried through the relations of our labs."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.support.exercise import in_unit, work_out

_DATA = Path(__file__).parents[1] / "data" / "exercise_amounts.toml"

#: Each asks what one quantity comes to; sources stand in the data file.
ROWS = [
    pytest.param(row, given, id=f"{row['lab']}-{given['of']}-{given['value']}")
    for row in tomllib.loads(_DATA.read_text("utf-8"))["amounts"]
    for given in row["gives"]
]


@pytest.mark.parametrize(("row", "given"), ROWS)
def test_a_lab_gives_what_was_worked_out_outside(
    row: dict[str, Any], given: dict[str, Any]
) -> None:
    own = work_out(row["lab"], row["taken"])[given["of"]]
    value = in_unit(row["lab"], given["of"], own, given["unit"])
    assert value == pytest.approx(given["value"], abs=given["half"])
