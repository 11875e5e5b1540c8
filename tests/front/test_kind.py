"""Which place to answer each kind of step has."""

from __future__ import annotations

from typing import get_args

from tests.front.stage import SHEET
from workbook.front.bell import Bell
from workbook.front.kind import make_pad
from workbook.wire.sheet import Step


def test_every_kind_of_step_has_a_place_to_answer() -> None:
    steps = (*SHEET.prelab, *SHEET.postlab)
    assert {type(step) for step in steps} == set(get_args(Step))
    for step in steps:
        pad = make_pad(step, Bell())
        pad.write(pad.read())
        assert pad.body
