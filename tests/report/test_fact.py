"""What the report on a class needs of one hand-in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.report.fact import Standing, find_fact, find_yields, stand
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.report.page import Marked


def test_the_lab_asks_for_one_yield_with_a_range(marked: list[Marked]) -> None:
    assert find_yields(marked[0].case.graph) == ["percent_yield"]


def test_a_yield_is_what_was_typed(marked: list[Marked]) -> None:
    values = marked[0].case.values
    soap_g = values["dish_and_soap"] - values["dish"]
    fact = find_fact(marked[0].mark, marked[0].case)
    # Typed with three figures.
    expected = 100 * soap_g / values["theoretical_yield"]
    assert fact.yields["percent_yield"] == pytest.approx(expected, abs=0.051)


def test_what_was_typed_stands_beside_what_is_right(marked: list[Marked]) -> None:
    fact = find_fact(marked[1].mark, marked[1].case)
    volume_ml = marked[1].case.values["oil_volume"]
    # The density was turned over: 0.911 g/mL below the line.
    assert fact.figures["oil_mass"].typed == pytest.approx(volume_ml / 0.911, abs=0.051)
    assert fact.right["oil_mass"] == pytest.approx(volume_ml * 0.911)
    assert not fact.figures["oil_mass"].is_right
    assert fact.readings == ("oil_volume", "lye_volume", "dish", "dish_and_soap")


def test_the_group_of_a_variant_is_named(marked: list[Marked]) -> None:
    for each in marked:
        features = find_fact(each.mark, each.case).features
        volume_ml = each.case.values["oil_volume"]
        # Drawn from 11.0 to 14.5 mL.
        half = "upper half" if volume_ml > 12.75 else "lower half"
        assert features["volume of olive oil"] == half
        assert features["what runs out first (limiting)"] == "olive oil"


@pytest.mark.parametrize(
    ("verdict", "standing"),
    [
        (Verdict(Outcome.RIGHT, "", value_holds=True), Standing.RIGHT),
        (Verdict(Outcome.FIGURES, "", value_holds=True), Standing.RIGHT),
        (Verdict(Outcome.COMMITTED, ""), Standing.RIGHT),
        (Verdict(Outcome.FOLLOWS, "", value_holds=True, follows=True), "followed"),
        (Verdict(Outcome.SLIP, ""), Standing.SLIPPED),
        (Verdict(Outcome.WRONG, ""), Standing.WRONG),
        (Verdict(Outcome.DIMENSION, ""), Standing.WRONG),
        (Verdict(Outcome.KEPT, ""), Standing.WRITTEN),
        (Verdict(Outcome.BLANK, ""), Standing.BLANK),
        (Verdict(Outcome.UNREAD, ""), Standing.BLANK),
    ],
)
def test_an_outcome_has_a_coarse_word(
    verdict: Verdict, standing: Standing | str
) -> None:
    expected = Standing.FOLLOWED if standing == "followed" else standing
    assert stand(verdict) is expected
