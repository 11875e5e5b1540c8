"""Marks as tables."""

from __future__ import annotations

from decimal import Decimal

from msgspec.structs import replace

from tests.support.marked import sort_marks
from workbook.errors import HandInError
from workbook.issuing.answerbook import AnswerPage, Value
from workbook.judge.worked import Worked
from workbook.labfile.roster import Student
from workbook.marking.result import SheetMark, StepMark
from workbook.report.csvfile import encode_csv
from workbook.report.table import (
    list_notes,
    list_problems,
    tabulate_answers,
    tabulate_marks,
    tabulate_problems,
    tabulate_steps,
)
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome, Verdict

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


def test_empty_tables_keep_their_columns() -> None:
    assert encode_csv(tabulate_problems(())) == b"file,kind,reason\r\n"
    assert encode_csv(tabulate_steps([])).startswith(b"lab,student,step,typed,")
