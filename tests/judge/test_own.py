"""Where a student stands before an answer: readings, constants, what follows."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case
from workbook.judge.own import Own, as_read, own_of

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case


def owns_of(case: Case) -> dict[str, Own]:
    """Return where a student stands who has answered nothing, and rounds nothing."""
    owns: dict[str, Own] = {}
    for quantity in case.graph.quantities.values():
        owns[quantity.name] = own_of(case, quantity, owns)
    return owns


def ends(own: Own) -> tuple[float, float]:
    return own.span.low, own.span.high


def test_a_scale_may_be_read_one_digit_off(case: Case) -> None:
    own = owns_of(case)["oil_volume"]
    assert ends(own) == pytest.approx((12.4, 12.6))
    assert own.known.figures == 3


def test_a_display_has_one_reading(case: Case) -> None:
    own = owns_of(case)["dish"]
    assert ends(own) == pytest.approx((45.20, 45.20))
    assert own.known.figures == 4, "the zero of 45.20 counts"


def test_what_the_sheet_prints_has_one_value(case: Case) -> None:
    own = owns_of(case)["planned_oil"]
    assert ends(own) == pytest.approx((12.0, 12.0))
    assert own.known.figures == 3


def test_a_molar_mass_spreads_by_the_choice_of_table(case: Case) -> None:
    """C57H104O6: 885.453 by CIAAW 2021 abridged, 885.61 to two decimals."""
    own = owns_of(case)["oil.molar_mass"]
    assert own.span.holds(885.61)
    assert not own.span.holds(885.62)


def test_a_value_follows_with_its_span_and_figures(case: Case) -> None:
    """12.4 to 12.6 mL × 0.911 g/mL: 11.2964 to 11.4786 g."""
    own = owns_of(case)["oil_mass"]
    assert ends(own) == pytest.approx((11.2964, 11.4786))
    assert own.known.figures == 3
    assert own.value == pytest.approx(11.3875)


def test_rounding_reaches_half_a_unit_further(case: Case) -> None:
    own = owns_of(case)["oil_mass"]
    assert ends(own.rounded()) == pytest.approx((11.2464, 11.5286))


def test_a_difference_is_known_to_its_places(compiled: CompiledGraph) -> None:
    """54.60 g - 45.20 g = 9.40 g: two decimals, three figures."""
    own = owns_of(make_case(compiled))["soap_mass"]
    assert (own.known.figures, own.known.place) == (3, -2)


def test_without_a_value_nothing_holds(case: Case) -> None:
    owns = owns_of(case)
    oil_mass = case.graph.quantities["oil_mass"]
    nothing = as_read(oil_mass, 0.0, -1)
    quantity = case.graph.quantities["percent_yield"]
    own = own_of(case, quantity, owns | {"theoretical_yield": nothing})
    assert math.isnan(own.value)
    assert not own.span.holds(80.0)


def test_a_fault_is_handed_on(case: Case) -> None:
    owns = owns_of(case)
    wrong = Own(owns["oil_mass"].span, owns["oil_mass"].known, "oil_mass")
    own = own_of(case, case.graph.quantities["oil_amount"], owns | {"oil_mass": wrong})
    assert own.fault == "oil_mass"


def test_a_huge_reading_can_be_stood_at(case: Case) -> None:
    own = as_read(case.graph.quantities["oil_volume"], 1e30, -1)
    assert own.value == 1e30
