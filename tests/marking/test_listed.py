"""An instructor's list of balance readings, and what can be wrong with it."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.support.kiln import LAB, STUDENTS
from tests.support.lab import KILN, make_lab
from workbook.errors import AuthorError
from workbook.marking.listed import Listed, read_listed

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab

HEAD = "student,reading,value\n"


@pytest.fixture(scope="module")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Lab:
    return make_lab(tmp_path_factory.mktemp("kiln"), KILN)


def read(folder: Path, text: str, **labs: Lab) -> tuple[Listed, ...]:
    path = folder / "balances.csv"
    path.write_text(text, encoding="utf-8")
    return read_listed(path, labs, STUDENTS)


def test_a_row_becomes_a_reading_in_the_unit_of_its_instrument(
    tmp_path: Path, lab: Lab
) -> None:
    text = f"{HEAD}k1,crucible,24.50 g\nk2,crucible,24510 mg\n"
    assert read(tmp_path, text, **{LAB: lab}) == (
        Listed("k1", LAB, "crucible", Decimal("24.50")),
        Listed("k2", LAB, "crucible", Decimal("24.510")),
    )


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("k9,crucible,24.50 g", "no student 'k9' is in the roster."),
        ("k1,crucibel,24.50 g", "no own reading of this course. Did you mean"),
        ("k1,oven,110.0 °C", "'oven' is no own reading"),
        ("k1,crucible,24.5 g", "write it to 0.01 g"),
        ("k1,crucible,24.500 g", "write it to 0.01 g"),
        ("k1,crucible,24.50", "has no unit"),
        ("k1,crucible,24.50 mL", "mL"),
        ("k1,crucible,heavy", "heavy"),
        ("k1,crucible", "the number of cells is 2, and 3"),
        ("k1,crucible,24.50 g\nk1,crucible,24.51 g", "stands in line 2 already"),
    ],
)
def test_what_is_wrong_is_told_with_file_and_line(
    tmp_path: Path, lab: Lab, row: str, says: str
) -> None:
    with pytest.raises(AuthorError) as caught:
        read(tmp_path, f"{HEAD}{row}\n", **{LAB: lab})
    (finding,) = caught.value.findings
    line = 2 + row.count("\n")
    assert finding.startswith(f"{tmp_path}/balances.csv:{line}: ")
    assert says in finding


def test_a_lab_is_named_where_two_have_the_reading(tmp_path: Path, lab: Lab) -> None:
    labs = {"one": lab, "two": lab}
    with pytest.raises(AuthorError, match="'one' and 'two' both have"):
        read(tmp_path, f"{HEAD}k1,crucible,24.50 g\n", **labs)
    named = "student,lab,reading,value\nk1,two,crucible,24.50 g\n"
    (found,) = read(tmp_path, named, **labs)
    assert found.lab == "two"
    with pytest.raises(AuthorError, match="no lab 'too' is in the course"):
        read(tmp_path, named.replace("two", "too"), **labs)
