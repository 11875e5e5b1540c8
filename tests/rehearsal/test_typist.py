"""Slips of the fingers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.rehearsal.typist import mistype

if TYPE_CHECKING:
    import random


def test_every_slip_of_the_fingers_comes_up(chance: random.Random) -> None:
    found = {mistype("10.6 mL", chance) for _ in range(400)}
    # A letter O, a digit swapped, missed, doubled, the one beside it, no unit.
    assert {"1O.6 mL", "01.6 mL", "10.6", "1.6 mL", "10.66 mL"} <= found
    assert "10.5 mL" in found or "10.7 mL" in found


def test_a_text_without_a_number_stays_nearly_as_it_is(chance: random.Random) -> None:
    assert mistype("", chance) == ""


def test_only_the_number_is_mistyped_and_not_the_unit(chance: random.Random) -> None:
    found = {mistype("25.0 mL", chance) for _ in range(200)}
    assert all(each.endswith("mL") or each == "25.0" for each in found)
