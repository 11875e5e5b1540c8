"""The figures of a class, counted by hand beside."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.classroom import make_cohort
from workbook.report.fact import Standing
from workbook.report.tally import contrast_variants, list_slips, tally_steps

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.solver.source import CourseSource

RIGHT, SLIP, BLANK = "right", "slip", "blank"


@pytest.fixture(scope="module")
def graph(source: CourseSource) -> Graph:
    (case,) = source.cases("olive-oil-soap", ["a1"])
    return case.graph


def test_every_step_is_counted(graph: Graph) -> None:
    cohort = make_cohort(graph, [(RIGHT, "a")] * 3 + [(SLIP, "a")] * 2 + [(BLANK, "a")])
    tallies = {each.step: each for each in tally_steps(graph.lab.public, cohort)}
    assert list(tallies) == [ask.id for ask in graph.lab.public.asks]
    assert tallies["oil_mass"].counts == {
        Standing.RIGHT: 3,
        Standing.SLIPPED: 2,
        Standing.BLANK: 1,
    }


def test_attempts_and_minutes_are_those_in_the_middle(graph: Graph) -> None:
    cohort = make_cohort(graph, [(RIGHT, "a")] * 2 + [(SLIP, "a")])
    (tally,) = (
        t for t in tally_steps(graph.lab.public, cohort) if t.step == "oil_mass"
    )
    # Attempts 1, 1 and 3; each four minutes after the reading before it.
    assert (tally.attempts, tally.minutes) == (1, 4.0)


def test_the_commonest_slip_comes_first(graph: Graph) -> None:
    cohort = make_cohort(graph, [(RIGHT, "a"), (SLIP, "a"), (SLIP, "b")])
    (slip,) = list_slips(graph.lab.public, cohort.facts)
    assert (slip.sentence, slip.count) == ("A factor is upside down.", 2)
    assert slip.asks == "What mass of oil did you start with?"


def test_a_variant_that_most_fail_is_found(graph: Graph) -> None:
    # 29 of 30 against 3 of 30: beyond chance with any number of comparisons made here.
    cohort = make_cohort(
        graph,
        [(RIGHT, "a")] * 29 + [(SLIP, "a")] + [(RIGHT, "b")] * 3 + [(SLIP, "b")] * 27,
    )
    contrasts = contrast_variants(graph.lab.public, cohort)
    (found,) = contrasts.found
    assert [group for group, _ in found.groups] == ["a", "b"]
    assert [share.hits for _, share in found.groups] == [29, 3]
    assert found.apart[0] > 0
    # Every step but two texts and a prediction, for one feature.
    assert contrasts.compared == 28


def test_a_difference_that_chance_makes_is_not_told(graph: Graph) -> None:
    cohort = make_cohort(
        graph,
        [(RIGHT, "a")] * 9 + [(SLIP, "a")] + [(RIGHT, "b")] * 6 + [(SLIP, "b")] * 4,
    )
    assert contrast_variants(graph.lab.public, cohort).found == ()


def test_of_a_group_of_few_nothing_is_said(graph: Graph) -> None:
    cohort = make_cohort(graph, [(RIGHT, "a")] * 20 + [(SLIP, "b")] * 4)
    contrasts = contrast_variants(graph.lab.public, cohort)
    assert (contrasts.found, contrasts.compared) == ((), 0)
    assert contrasts.too_few == ("kind",)
