"""Tables of the OneRoster standard, by the names and words of its own text."""

from __future__ import annotations

import csv
import io
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.support.marked import sort_marks
from workbook.report.csvfile import encode_csv
from workbook.report.oneroster import (
    RESULTS_FILE,
    Item,
    Place,
    tabulate_records,
    tabulate_results,
)

if TYPE_CHECKING:
    import pandas as pd

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark

PLACE = Place(course="salt-1", class_id="chem-7", period_id="autumn")
ITEM = Item(
    lab="olive-oil-soap",
    title="=Hard soap",
    assigned=date(2026, 3, 2),
    due=date(2026, 3, 9),
    out_of=Decimal("63.0"),
)
ON = date(2026, 3, 10)

# 1EdTech, OneRoster: CSV Tables, version 1.1.1: the columns of each file, in order.
_ITEM_COLUMNS = (
    "sourcedId status dateLastModified title description assignDate dueDate "
    "classSourcedId categorySourcedId gradingPeriodSourcedId resultValueMin "
    "resultValueMax"
)
_RESULT_COLUMNS = (
    "sourcedId status dateLastModified lineItemSourcedId studentSourcedId "
    "scoreStatus score scoreDate comment"
)


@pytest.fixture(scope="module")
def tables(
    roster: tuple[Student, ...], marks: list[SheetMark]
) -> dict[str, pd.DataFrame]:
    asked = [(ITEM, student) for student in roster]
    results = tabulate_results(PLACE, asked, sort_marks(*marks), ON)
    return {**tabulate_records(PLACE, [ITEM]), RESULTS_FILE: results}


def rows(table: pd.DataFrame) -> list[dict[str, str]]:
    """Return the rows as the csv module reads them from the file."""
    text = encode_csv(table).decode()
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.parametrize(
    ("name", "columns"),
    [
        ("manifest.csv", "propertyName value"),
        ("categories.csv", "sourcedId status dateLastModified title"),
        (
            "lineItems.csv",
            _ITEM_COLUMNS,
        ),
        (
            "results.csv",
            _RESULT_COLUMNS,
        ),
    ],
)
def test_the_columns_are_those_of_the_standard(
    tables: dict[str, pd.DataFrame], name: str, columns: str
) -> None:
    assert list(tables[name].columns) == columns.split()


def test_every_student_has_a_result(tables: dict[str, pd.DataFrame]) -> None:
    results = rows(tables["results.csv"])
    found = [(r["studentSourcedId"], r["scoreStatus"], r["score"]) for r in results]
    # 59 by hand; the second loses 3 for the mass and 2 for the step that is empty.
    assert found == [
        ("a1", "partially graded", "59"),
        ("b2", "partially graded", "54"),
        ("c3", "not submitted", "0"),
    ]


def test_what_is_referred_to_is_there(tables: dict[str, pd.DataFrame]) -> None:
    (category,) = rows(tables["categories.csv"])
    (item,) = rows(tables["lineItems.csv"])
    results = rows(tables["results.csv"])
    assert item["categorySourcedId"] == category["sourcedId"]
    assert {r["lineItemSourcedId"] for r in results} == {item["sourcedId"]}
    assert len({r["sourcedId"] for r in results}) == len(results)
    assert (item["classSourcedId"], item["gradingPeriodSourcedId"]) == (
        "chem-7",
        "autumn",
    )


def test_dates_and_worth_are_plain(tables: dict[str, pd.DataFrame]) -> None:
    (item,) = rows(tables["lineItems.csv"])
    assert (item["assignDate"], item["dueDate"]) == ("2026-03-02", "2026-03-09")
    assert (item["resultValueMin"], item["resultValueMax"]) == ("0", "63")
    assert rows(tables["results.csv"])[0]["scoreDate"] == "2026-03-10"


def test_in_a_whole_set_status_and_time_of_change_are_empty(
    tables: dict[str, pd.DataFrame],
) -> None:
    for name in ("categories.csv", "lineItems.csv", "results.csv"):
        for row in rows(tables[name]):
            assert (row["status"], row["dateLastModified"]) == ("", "")


def test_the_manifest_tells_what_is_there(tables: dict[str, pd.DataFrame]) -> None:
    told = {r["propertyName"]: r["value"] for r in rows(tables["manifest.csv"])}
    assert told["oneroster.version"] == "1.1"
    bulk = {name for name, value in told.items() if value == "bulk"}
    assert bulk == {"file.categories", "file.lineItems", "file.results"}


def test_a_title_like_a_formula_is_made_a_text(
    tables: dict[str, pd.DataFrame],
) -> None:
    assert rows(tables["lineItems.csv"])[0]["title"] == "'=Hard soap"
