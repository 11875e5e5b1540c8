"""Marks as tables, and tables as CSV files that are safe to open."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from typing import TYPE_CHECKING

import pandas as pd
import pytest
from msgspec.structs import replace

from tests.support.marked import sort_marks
from workbook.errors import HandInError
from workbook.issuing.answerbook import AnswerPage, Value
from workbook.judge.worked import Worked
from workbook.labfile.roster import Student
from workbook.marking.result import SheetMark, StepMark
from workbook.report import table
from workbook.report.table import (
    encode_csv,
    list_notes,
    list_problems,
    tabulate_answers,
    tabulate_marks,
    tabulate_problems,
    tabulate_steps,
    write_csv,
)
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

ROSTER = (Student("a1", "Ada", "morning"), Student("b2", "Ben"))
STEP = StepMark(
    step="dish",
    typed="45.05 g",
    answer=Typed("45.05 g"),
    verdict=Verdict(Outcome.RIGHT, "Right.", read_as="45.05 g, 4 figures"),
    band="45.05 to 45.05 g",
    attempts=2,
    earned=Decimal("1.50"),
    points=Decimal("1.50"),
    out_of=Decimal(2),
    reason="Right.",
)
MARK = SheetMark(
    student="b2",
    lab="soap",
    steps=(STEP, STEP),
    taken_off=Decimal("0.5"),
    points=Decimal("2.50"),
    out_of=Decimal(4),
    file="b2.handin.json",
    remark="Figures: 0.5 off, once (dish).",
)


def read(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode(), newline="")))


def test_every_student_has_a_row_in_the_rosters_order() -> None:
    made = tabulate_marks(ROSTER, {"soap": Decimal(4)}, sort_marks(MARK))
    assert made.to_numpy().tolist() == [
        [
            "a1",
            "Ada",
            "morning",
            "soap",
            "0",
            "4",
            "0",
            "0",
            "",
            "",
            "Nothing was handed in.",
        ],
        [
            "b2",
            "Ben",
            "",
            "soap",
            "2.5",
            "4",
            "0.5",
            "0",
            "",
            "b2.handin.json",
            MARK.remark,
        ],
    ]


def test_every_student_has_a_row_for_every_lab() -> None:
    made = tabulate_marks(
        ROSTER, {"soap": Decimal(4), "salt": Decimal(3)}, sort_marks(MARK)
    )
    assert made["lab"].tolist() == ["soap", "salt", "soap", "salt"]
    assert made["points"].tolist() == ["0", "0", "2.5", "0"]


def test_every_step_has_a_row() -> None:
    made = tabulate_steps([MARK])
    assert made.shape == (2, 12)
    assert made.iloc[0].to_dict() == {
        "lab": "soap",
        "student": "b2",
        "step": "dish",
        "typed": "45.05 g",
        "read_as": "45.05 g, 4 figures",
        "band": "45.05 to 45.05 g",
        "outcome": "right",
        "attempts": "2",
        "points": "1.5",
        "out_of": "2",
        "marker": "",
        "reason": "Right.",
    }


def test_every_value_and_answer_has_a_row() -> None:
    value = Value("reading", "dish", "mass of the dish", "45.05 g")
    step = Worked("oil_mass", "mass of oil", "V * d", "11.1 mL × 0.911 g/mL", "10.1 g")
    page = AnswerPage(ROSTER[0], "soap", "Soap", (value,), (step,))
    made = tabulate_answers([page])
    assert made["kind"].tolist() == ["reading", "answer"]
    assert made["value"].tolist() == ["45.05 g", "10.1 g"]


def test_every_file_that_was_not_marked_has_a_row() -> None:
    made = tabulate_problems(list_problems([HandInError("x", "it is empty.")]))
    assert made.to_numpy().tolist() == [["x", "refused", "it is empty."]]


def test_notes_for_staff_are_among_the_problems() -> None:
    noted = replace(MARK, notes=("One.", "Two."))
    assert tabulate_problems(list_notes([MARK, noted])).to_numpy().tolist() == [
        ["b2.handin.json", "look at", "One."],
        ["b2.handin.json", "look at", "Two."],
    ]


def test_a_table_written_in_parts_is_the_table_in_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(table, "_AT_ONCE", 2)
    marks = [replace(MARK, student=f"s{number}") for number in range(5)]
    write_csv(tmp_path / "steps.csv", tabulate_steps, iter(marks))
    expected = encode_csv(tabulate_steps(marks))
    assert (tmp_path / "steps.csv").read_bytes() == expected
    write_csv(tmp_path / "none.csv", tabulate_steps, ())
    assert (tmp_path / "none.csv").read_bytes() == encode_csv(tabulate_steps(()))


def test_empty_tables_keep_their_columns() -> None:
    assert encode_csv(tabulate_problems(())) == b"file,kind,reason\r\n"
    assert encode_csv(tabulate_steps([])).startswith(b"lab,student,step,typed,")


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1", "-1 g", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "\uff1d1+1", "\uff20A1"],
)
def test_a_cell_that_starts_like_a_formula_is_made_a_text(text: str) -> None:
    rows = read(encode_csv(pd.DataFrame({"typed": [text]})))
    assert rows == [["typed"], [f"'{text}"]]


@pytest.mark.parametrize(
    "text",
    ["13.6 g", "a=b", "1-2", 'say "x", then', "two\nlines", "cr\rhere", "", "NA"],
)
def test_any_other_cell_comes_back_as_it_was(text: str) -> None:
    rows = read(encode_csv(pd.DataFrame({"typed": [text], "end": ["."]})))
    assert rows[1] == [text, "."]
