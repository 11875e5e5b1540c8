"""The place to say what belongs to what."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.front.stage import STATEMENTS, STREAMS
from workbook.front.bell import Bell
from workbook.front.matching import MatchingPad
from workbook.wire.answer import Match, Matched, Typed

if TYPE_CHECKING:
    from workbook.wire.sheet import MatchingStep

TICKED = Matched((Match("oil", ("fire", "eyes")), Match("wax", ())))
PICKED = Matched((Match("oil", ("drum",)), Match("wax", ())))


def labels(pad: MatchingPad) -> list[str]:
    rows = pad.grid.view.spec["rows"]
    return [cell["label"] for row in rows for cell in row["cells"]]


def test_at_the_start_nothing_belongs_to_anything() -> None:
    nothing = Matched((Match("oil", ()), Match("wax", ())))
    assert MatchingPad(STATEMENTS, Bell()).read() == nothing
    assert MatchingPad(STREAMS, Bell()).read() == nothing


def test_ticks_are_read_row_by_row() -> None:
    pad = MatchingPad(STATEMENTS, Bell())
    ticks = {"oil eyes": "yes", "oil fire": "yes", "wax fire": ""}
    pad.grid.view.set_state({"values": ticks})
    assert pad.read() == TICKED


def test_a_choice_is_read_row_by_row() -> None:
    pad = MatchingPad(STREAMS, Bell())
    pad.grid.view.set_state({"values": {"oil": "drum"}})
    assert pad.read() == PICKED


@pytest.mark.parametrize(("step", "answer"), [(STATEMENTS, TICKED), (STREAMS, PICKED)])
def test_an_earlier_answer_comes_back(step: MatchingStep, answer: Matched) -> None:
    pad = MatchingPad(step, Bell())
    strange = Matched((*answer.matches, Match("gold", ("fire",))))
    pad.write(strange)
    pad.write(Typed("oil"))
    assert pad.read() == answer


def test_every_place_is_named_by_its_row_and_what_may_belong() -> None:
    assert labels(MatchingPad(STATEMENTS, Bell())) == [
        "almond oil: It burns",
        "wax: It burns",
        "almond oil: It stings",
        "wax: It stings",
    ]
    assert labels(MatchingPad(STREAMS, Bell())) == ["almond oil", "wax"]
