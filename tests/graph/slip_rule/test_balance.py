"""The masses of an equation, and mistakes with them; sums by hand."""

from __future__ import annotations

import pytest

from tests.support.slip import build, solve
from workbook.graph.compute import compute
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.balance import (
    MassBalance,
    mistake_balance,
    mistake_removed,
    read_balance,
)
from workbook.graph.slip_rule.step import Step
from workbook.relation.tree import Name, Number


def step() -> Step:
    """Return the algebra step of the reference case."""
    graph = build()
    return Step(graph, "soap.molar_mass", Name("soap.molar_mass"))


def balance() -> MassBalance:
    """Return oil + 3 lye - glycerol = 3 soap."""
    found = read_balance(step(), "oil", "soap")
    assert found is not None
    return found


def test_all_molecules_of_the_product_weigh_the_rest() -> None:
    # 885.45 + 3 × 39.997 - 92.09 = 913.35.
    total = balance().total(*balance().others)
    assert compute(build(), total, solve(build())) == pytest.approx(913.35, abs=0.01)
    assert balance().divisor == 3


def test_two_substances_of_one_side_have_no_balance() -> None:
    assert read_balance(step(), "oil", "lye") is None


def test_two_substances_of_different_equations_have_no_balance() -> None:
    assert read_balance(step(), "oil", "sulfate") is None


def test_glycerol_can_be_forgotten() -> None:
    # (885.45 + 119.99) / 3 = 335.15.
    values = solve(build())
    found = [
        compute(build(), relation, values)
        for kind, relation in mistake_balance(balance())
        if kind is SlipKind.BYPRODUCT_FORGOTTEN
    ]
    assert found == [pytest.approx(335.15, abs=0.01)]


def test_an_ion_is_added_after_what_forms_beside_was_removed() -> None:
    # (885.45 - 92.09) / 3 + 22.99 = 287.44, as in the notes.
    ((kind, relation),) = mistake_removed(balance(), (Number("22.990"),))
    value = compute(build(), relation, solve(build()))
    assert kind is SlipKind.WHOLE_BYPRODUCT_REMOVED
    assert value == pytest.approx(287.44, abs=0.01)
