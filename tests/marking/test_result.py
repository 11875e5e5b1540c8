"""Marks as plain data."""

from __future__ import annotations

import pickle
from decimal import Decimal

import msgspec
import pytest
from msgspec.structs import replace

from workbook.marking.result import SheetMark, StepMark
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome, Verdict

STEP = StepMark(
    step="discussion",
    answer=Typed("It stuck to the paper."),
    verdict=Verdict(Outcome.KEPT, "A person reads it.", read_as=""),
    typed="It stuck to the paper.",
    earned=Decimal("0.10"),
    points=Decimal("0.10"),
    out_of=Decimal(2),
    reason="",
)
SHEET = SheetMark(
    student="a1",
    lab="soap",
    steps=(STEP,),
    taken_off=Decimal(0),
    points=Decimal("0.10"),
    out_of=Decimal(2),
    file="a1.handin.json",
    remark="",
)


@pytest.mark.parametrize("way", ["json", "pickle"])
def test_a_mark_survives_the_way_to_a_file_or_another_process(way: str) -> None:
    if way == "json":
        back = msgspec.json.decode(msgspec.json.encode(SHEET), type=SheetMark)
    else:
        back = pickle.loads(pickle.dumps(SHEET))  # noqa: S301 - our own
    assert back == SHEET


def test_a_text_waits_until_somebody_has_marked_it() -> None:
    assert STEP.waits
    assert not replace(STEP, marker="R. Eddy").waits
