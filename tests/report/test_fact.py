"""What the report on a class needs of one hand-in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from tests.support.classroom import make_mark, make_step
from workbook.report.fact import (
    ABSENT,
    NEVER,
    Standing,
    find_fact,
    find_readings,
    find_yields,
    stand,
    sum_up,
)
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.report.page import Marked


def find_rows(marked: Marked) -> dict[str, np.void]:
    """Return what is kept of each step of a hand-in."""
    fact = find_fact(marked.mark, marked.case)
    steps = [ask.id for ask in marked.case.graph.lab.public.asks]
    return dict(zip(steps, fact.steps, strict=True))


def test_the_lab_asks_for_one_yield_with_a_range(marked: list[Marked]) -> None:
    assert find_yields(marked[0].case.graph) == ["percent_yield"]


def test_a_yield_is_what_was_typed(marked: list[Marked]) -> None:
    values = marked[0].case.values
    soap_g = values["dish_and_soap"] - values["dish"]
    row = find_rows(marked[0])["percent_yield"]
    # Typed with three figures.
    expected = 100 * soap_g / values["theoretical_yield"]
    assert row["typed"] == pytest.approx(expected, abs=0.051)


def test_what_was_typed_stands_beside_what_is_right(marked: list[Marked]) -> None:
    row = find_rows(marked[1])["oil_mass"]
    volume_ml = marked[1].case.values["oil_volume"]
    # The density was turned over: 0.911 g/mL below the line.
    assert row["typed"] == pytest.approx(volume_ml / 0.911, abs=0.051)
    assert row["right"] == pytest.approx(volume_ml * 0.911)
    assert not row["is_right"]


def test_what_is_no_number_has_none(marked: list[Marked]) -> None:
    rows = find_rows(marked[1])
    assert np.isnan([rows[s]["typed"] for s in ("pressing", "lye_left")]).all()
    assert np.isnan(rows["pressing"]["right"])
    assert not np.isnan(rows["lye_left"]["right"])
    assert rows["lye_left"]["at"] == NEVER


def test_a_mistake_that_was_recognised_is_kept_with_its_sentence(
    marked: list[Marked],
) -> None:
    slips = dict(find_fact(marked[1].mark, marked[1].case).slips)
    said = {step.step: step.verdict.sentence for step in marked[1].mark.steps}
    assert "oil_mass" in slips
    assert slips.items() <= said.items()


def test_a_step_that_the_marks_do_not_have_is_absent() -> None:
    mark = make_mark("a1", [make_step("dish", "slip", minutes=1)])
    fact = sum_up(mark, ("gone", "dish"), {})
    assert fact.steps["standing"].tolist() == [ABSENT, 2]
    assert fact.steps["attempts"].tolist() == [0, 3]
    # 2 March 2026 is 20,514 days after the beginning of 1970; noon and a minute.
    assert fact.steps["at"].tolist() == [NEVER, (20_514 * 86_400 + 43_260) * 10**6]
    assert (fact.points, fact.out_of, fact.ripe) == (0, 2, 2)


def test_the_readings_of_a_lab_are_named(marked: list[Marked]) -> None:
    expected = ["oil_volume", "lye_volume", "dish", "dish_and_soap"]
    assert find_readings(marked[0].case.graph) == expected


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
