"""Numbers on paper: rounded as they are used, or not."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.rehearsal.conftest import THREE
from workbook.measure.figures import Known
from workbook.rehearsal.habit import EXACT
from workbook.rehearsal.kept import Kept

if TYPE_CHECKING:
    from workbook.rehearsal.habit import Habit


def kept(text: str, place: int | None, habit: Habit) -> Kept:
    return Kept(Known(Decimal(text), place), habit)


# By hand: 1.23 × 4.56 = 5.6088, and 5.61 to three figures; twice that.
@pytest.mark.parametrize(("habit", "expected"), [(EXACT, "11.2176"), (THREE, "11.22")])
def test_what_is_on_the_way_is_rounded_by_habit(habit: Habit, expected: str) -> None:
    product = kept("1.23", -2, habit) * kept("4.56", -2, habit)
    assert (product * kept("2", None, habit)).known.value == Decimal(expected)


def test_nothing_is_rounded_below_its_proper_figures() -> None:
    # 12.345 × 2.0000 = 24.69 is good to five figures, whatever the habit.
    product = kept("12.345", -3, THREE) * kept("2.0001", -4, THREE)
    assert product.used().value == Decimal("24.691")


def test_what_was_not_worked_out_is_used_as_it_stands() -> None:
    assert kept("885.453", -3, THREE).used().value == Decimal("885.453")


def test_signs_and_powers() -> None:
    two, three = kept("2", None, EXACT), kept("3", None, EXACT)
    assert (-two + three - two).known.value == -1
    assert (three**2 / two).known.value == Decimal("4.5")
    assert three.applied(min, two).known.value == 2
