"""What a place to answer offers."""

from __future__ import annotations

from tests.front.stage import ALGEBRA, CHAIN, NUMBER
from workbook.front.bell import Bell
from workbook.front.kind import make_pad
from workbook.front.pad import Pointing


def test_only_answers_with_parts_can_be_pointed_into() -> None:
    assert isinstance(make_pad(CHAIN, Bell()), Pointing)
    assert isinstance(make_pad(ALGEBRA, Bell()), Pointing)
    assert not isinstance(make_pad(NUMBER, Bell()), Pointing)
