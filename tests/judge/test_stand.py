"""Where a student stands after an answer: what may be carried on from it."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from workbook.graph.span import Span
from workbook.judge.own import Own
from workbook.judge.stand import answered, is_possible, mistaken
from workbook.judge.typed import Typing, read_typed
from workbook.measure.figures import Known

if TYPE_CHECKING:
    from workbook.judge.case import Case

#: 12.5 mL × 0.911 g/mL.
UNROUNDED = Own(Span.around(11.3875), Known(Decimal("11.3875"), -1))


def typed(case: Case, text: str, name: str = "oil_mass") -> Typing:
    found = read_typed(case, case.graph.quantities[name], text)
    assert isinstance(found, Typing)
    return found


def stand(case: Case, text: str, own: Own = UNROUNDED) -> Span:
    return answered([own], typed(case, text)).span


@pytest.mark.parametrize(
    ("carried", "may"),
    [
        (11.4, True),  # what was typed
        (11.3875, True),  # what was not rounded
        (11.39, True),  # one figure more than was typed
        (11.44, False),
        (11.35, False),
    ],
)
def test_a_student_may_carry_the_typed_or_the_unrounded_value(
    case: Case, carried: float, *, may: bool
) -> None:
    assert stand(case, "11.4 g").holds(carried) is may


def test_more_typed_digits_leave_less_to_carry(case: Case) -> None:
    span = stand(case, "11.388 g")
    assert span.high - span.low < 0.001


def test_an_answer_that_an_author_let_in_is_gone_on_from(case: Case) -> None:
    """11.9 g is not within half of a tenth: all that rounds to it may be carried."""
    span = stand(case, "11.9 g")
    assert (span.low, span.high) == pytest.approx((11.85, 11.95))


def test_an_answer_that_agrees_twice_may_be_carried_either_way(case: Case) -> None:
    faulty = Own(Span.around(11.44), Known(Decimal("11.44"), -1), "oil_volume")
    own = answered([UNROUNDED, faulty], typed(case, "11.4 g"))
    assert own.span.holds(11.3875)
    assert own.span.holds(11.44)
    assert own.fault is None


def test_a_typed_value_keeps_the_proper_figures(case: Case) -> None:
    assert answered([UNROUNDED], typed(case, "11.388 g")).known.figures == 3


def test_a_mistake_is_remembered_under_its_first_name(case: Case) -> None:
    first = mistaken(UNROUNDED, "oil_mass", typed(case, "13.7 g"))
    second = mistaken(first, "oil_amount", typed(case, "0.0142 mol", "oil_amount"))
    assert first.fault == second.fault == "oil_mass"
    assert (first.span.low, first.span.high) == pytest.approx((13.65, 13.75))


@pytest.mark.parametrize(
    ("name", "value", "true", "possible"),
    [
        ("oil_mass", 13.7, 11.4, True),
        ("oil_mass", -13.7, 11.4, False),
        ("oil_mass", 0.0, 11.4, False),
        ("percent_yield", 99.0, 80.0, True),
        ("percent_yield", 100.0, 80.0, True),
        ("percent_yield", 125.0, 80.0, False),
        # Wet soap, weighed so for everybody: then it is no mistake of the student's.
        ("percent_yield", 125.0, 110.0, True),
    ],
)
def test_some_values_can_not_be(
    case: Case, name: str, value: float, true: float, *, possible: bool
) -> None:
    quantity = case.graph.quantities[name]
    assert is_possible(quantity, value, true) is possible
