"""Which units of a factor chain cancel."""

from __future__ import annotations

from workbook.front.cancel import Count, Link, cancel, factor_link, start_link
from workbook.wire.sheet import ChainStep, Factor

ML_OIL = Link(Count("", "mL", "oil"), None)
DENSITY = Link(Count("0.911", "g", "oil"), Count("1", "mL", "oil"))
UPSIDE_DOWN = Link(Count("1", "mL", "oil"), Count("0.911", "g", "oil"))
MOLAR = Link(Count("1", "mol", "oil"), Count("885.4", "g", "oil"))
RATIO = Link(Count("3", "mol", "soap"), Count("1", "mol", "oil"))


def test_millilitres_over_millilitres_leave_grams() -> None:
    reduced = cancel([ML_OIL, DENSITY])
    assert (reduced.tops, reduced.bottoms) == ((True, False), (False, True))
    assert reduced.words == "g of oil"


def test_a_whole_chain_comes_down_to_one_unit() -> None:
    assert cancel([ML_OIL, DENSITY, MOLAR, RATIO]).words == "mol of soap"


def test_a_factor_upside_down_cancels_nothing() -> None:
    reduced = cancel([ML_OIL, UPSIDE_DOWN])
    assert not any((*reduced.tops, *reduced.bottoms))
    assert reduced.words == "mL of oil times mL of oil per g of oil"


def test_the_same_unit_of_another_substance_stays() -> None:
    soap = Link(Count("1", "mL", "soap"), Count("2", "mL", "lye"))
    assert cancel([ML_OIL, soap]).words == "mL of oil times mL of soap per mL of lye"


def test_one_unit_cancels_once_only() -> None:
    twice = cancel([ML_OIL, DENSITY, DENSITY])
    assert twice.bottoms == (False, True, False)
    assert twice.words == "g of oil times g of oil per mL of oil"


def test_a_unit_cancels_against_a_later_one_placed_on_top() -> None:
    per_oil = Link(Count("1", "g", "soap"), Count("2", "mol", "oil"))
    assert cancel([per_oil, MOLAR]).words == "g of soap per g of oil"


def test_pure_numbers_are_no_units() -> None:
    half = Link(Count("1", "", ""), Count("2", "", ""))
    reduced = cancel([half])
    assert not any((*reduced.tops, *reduced.bottoms))
    assert reduced.words == "no unit"


def test_what_is_left_below_alone_is_said_with_a_one() -> None:
    inverse = Link(Count("1", "", ""), Count("2", "mol", "oil"))
    assert cancel([inverse]).words == "1 per mol of oil"


def test_a_turned_factor_has_its_denominator_on_top() -> None:
    factor = Factor("d", "density", "0.911", "g", "1", "mL", "oil", "oil")
    assert factor_link(factor, is_turned=False) == DENSITY
    assert factor_link(factor, is_turned=True) == UPSIDE_DOWN


def test_a_chain_starts_from_the_step_s_own_unit() -> None:
    step = ChainStep(
        id="m",
        asks="?",
        unit="g",
        start="volume",
        start_unit="mL",
        start_of="oil",
        end_of="oil",
        offers=(),
    )
    assert start_link(step) == ML_OIL
