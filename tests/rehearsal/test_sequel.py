"""Whole sheets with slips in them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import OLIVE_OIL, WEIGHTS
from workbook.graph.build import build_graph
from workbook.graph.slip import Slip, SlipKind, slips_of
from workbook.labfile.reader import read_lab
from workbook.rehearsal.register import Register
from workbook.rehearsal.sequel import Sequel, asks_for, find_behind
from workbook.relation.reader import read_relation

if TYPE_CHECKING:
    import random

    from workbook.graph.quantity import Graph
    from workbook.judge.case import Case


def slip_of(graph: Graph, step: str, kind: SlipKind) -> Slip:
    return next(each for each in slips_of(graph, step) if each.kind is kind)


def test_what_comes_after_a_slip_follows(case: Case, chance: random.Random) -> None:
    register = Register(case.graph)
    made = {"oil_mass": slip_of(case.graph, "oil_mass", SlipKind.DENSITY_UPSIDE_DOWN)}
    Sequel(case, made, register).answer(chance)
    # Amount of oil, of soap, the yield in grams and percent, the rest of lye, the acid,
    # and which reagent limits, at least.
    assert register.tally.followed.of >= 7
    assert register.tally.followed.hits == register.tally.followed.of
    assert register.tally.honest_wrong.hits == 0


def test_two_slips_are_named_each(case: Case, chance: random.Random) -> None:
    register = Register(case.graph)
    made = {
        "oil_mass": slip_of(case.graph, "oil_mass", SlipKind.DENSITY_UPSIDE_DOWN),
        "soap_mass": slip_of(case.graph, "soap_mass", SlipKind.TARE_LEFT_ON),
    }
    Sequel(case, made, register).answer(chance)
    assert (register.tally.second_named.hits, register.tally.second_named.of) == (2, 2)


def test_behind_an_impossible_value_nothing_is_expected(
    case: Case, chance: random.Random
) -> None:
    register = Register(case.graph)
    wrong = Slip(SlipKind.OWN, "Below zero.", read_relation("dish - dish_and_soap"))
    Sequel(case, {"soap_mass": wrong}, register).answer(chance)
    assert register.tally.stopped == 1
    assert register.tally.followed.of == 0


def test_a_slip_without_a_value_is_answered_by_nobody(
    case: Case, chance: random.Random
) -> None:
    register = Register(case.graph)
    wrong = Slip(SlipKind.OWN, "Nowhere.", read_relation("oil_volume / (dish - dish)"))
    Sequel(case, {"oil_mass": wrong}, register).answer(chance)
    assert register.tally.attempts == 0


@pytest.mark.parametrize(
    ("step", "behind"),
    [
        ("oil_mass", set()),
        ("oil_amount", {"oil_mass"}),
        ("limiting", {"oil_mass", "oil_amount", "lye_amount"}),
        ("lye_left", {"oil_mass", "oil_amount", "lye_amount"}),
        # A table: its equivalents follow from its own amounts.
        ("trial", {"trial_oil_amount", "trial_lye_amount"}),
    ],
)
def test_what_a_step_rests_on(graph: Graph, step: str, behind: set[str]) -> None:
    ask = next(each for each in graph.lab.public.asks if each.id == step)
    assert set(find_behind(graph, ask)) == behind


def test_a_table_rests_on_what_is_asked_before_it() -> None:
    graph = build_graph(read_lab(OLIVE_OIL.parent / "aspirin"), WEIGHTS)
    ask = next(each for each in graph.lab.public.asks if each.id == "plan")
    behind = {"planned_salicylic_amount", "planned_anhydride_amount"}
    assert set(find_behind(graph, ask)) == behind


def test_a_table_asks_for_several_quantities(graph: Graph) -> None:
    asked = [asks_for(each) for each in graph.lab.public.asks]
    assert {"trial_oil_amount", "trial_lye_amount", "trial_equivalents"} in asked
    assert set() in asked
