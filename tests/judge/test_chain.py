"""Factor chains: every way that leads there holds, each wrong way has its sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import NOT_RIGHT, RIGHT
from workbook.judge import words
from workbook.judge.chain import (
    FACTOR_LIMIT,
    factor_powers,
    judge_chain,
    relation_powers,
)
from workbook.judge.judge import judge
from workbook.relation.reader import read_relation
from workbook.wire.answer import Built, Placed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.wire.verdict import Verdict


def place(*factors: str) -> tuple[Placed, ...]:
    """Return factors, those led by ``1/`` turned over."""
    return tuple(
        Placed(factor.removeprefix("1/"), turned=factor.startswith("1/"))
        for factor in factors
    )


def verdict(case: Case, step: str, *factors: str, result: str = "") -> Verdict:
    answer = Built(place(*factors), result or RIGHT[step])
    return judge(case, step, {step: answer})


@pytest.mark.parametrize(
    ("step", "factors"),
    [
        ("oil_mass", ("oil.density",)),
        ("oil_amount", ("1/oil.molar_mass",)),
        ("soap_amount", ("ratio(soap, oil)",)),
        # By way of another substance of the same equation.
        ("soap_amount", ("ratio(lye, oil)", "ratio(soap, lye)")),
        ("soap_amount", ("ratio(glycerol, oil)", "ratio(soap, glycerol)")),
        # A factor that is taken back again.
        ("oil_mass", ("oil.density", "soap.molar_mass", "1/soap.molar_mass")),
        ("oil_mass", ("oil.density", "oil.density", "1/oil.density")),
    ],
)
def test_every_chain_that_leads_there_holds(
    case: Case, step: str, factors: tuple[str, ...]
) -> None:
    offered = [turn(case, step, factor) for factor in factors]
    found = verdict(case, step, *offered)
    assert found.outcome is Outcome.RIGHT, found.sentence
    assert found.method_holds


def turn(case: Case, step: str, factor: str) -> str:
    """Return a ratio as it is offered: which way up is the sheet's choice."""
    if "ratio" not in factor or verdict(case, step, factor).sentence != (
        f"{words.CHAIN_UNKNOWN} {words.RESULT_ALL_THE_SAME}"
    ):
        return factor
    first, second = factor.removeprefix("ratio(").removesuffix(")").split(", ")
    return f"1/ratio({second}, {first})"


@pytest.mark.parametrize(
    ("step", "factors", "said", "at"),
    [
        ("oil_mass", (), "The chain is empty", None),
        ("oil_mass", ("1/oil.density",), "upside down: density of olive oil", 0),
        ("oil_amount", ("oil.molar_mass",), "upside down: molar mass of olive oil", 0),
        ("oil_mass", ("oil.density",) * 2, "more than once: density of olive oil", 0),
        ("oil_mass", ("lye.solution_density",), "another substance: density of lye", 0),
        (
            "oil_mass",
            ("oil.density", "1/oil.molar_mass"),
            "another substance: molar mass of olive oil",
            1,
        ),
        ("oil_mass", ("soap.molar_mass", "1/soap.molar_mass"), "still missing", None),
        ("oil_mass", ("water.density",), "not among those offered", 0),
        ("oil_mass", ("oil.density", "__class__"), "not among those offered", 1),
        ("oil_mass", ("ratio(",), "not among those offered", 0),
    ],
)
def test_every_wrong_chain_has_its_sentence(
    case: Case, step: str, factors: tuple[str, ...], said: str, at: int | None
) -> None:
    found = verdict(case, step, *factors)
    assert found.outcome is Outcome.WRONG
    assert said in found.sentence
    assert found.at == at
    assert found.method_holds is False


def test_the_coefficients_of_another_pair_are_foreign(case: Case) -> None:
    """Soap and lye both have a 3 before them, and are not the same."""
    found = verdict(case, "lye_needed", "1/ratio(soap, glycerol)")
    assert found.outcome is Outcome.WRONG
    right = verdict(case, "lye_needed", "ratio(lye, oil)")
    assert right.outcome is Outcome.RIGHT


def test_a_chain_has_an_end(case: Case) -> None:
    pairs = ("oil.density", "1/oil.density") * (FACTOR_LIMIT // 2)
    found = verdict(case, "oil_mass", "oil.density", *pairs)
    assert found.outcome is Outcome.WRONG
    assert f"more than {FACTOR_LIMIT} factors" in found.sentence


def test_a_right_chain_does_not_save_a_wrong_result(case: Case) -> None:
    found = verdict(case, "oil_mass", "oil.density", result="13.7 g")
    assert found.outcome in NOT_RIGHT
    assert found.method_holds
    assert not found.value_holds


def test_a_result_that_leads_nowhere_is_told_from_its_chain(case: Case) -> None:
    found = verdict(case, "oil_mass", "oil.density", result="17.3 g")
    assert found.sentence == words.RESULT_NOT


def test_a_result_that_can_not_be_read_leaves_the_chain_alone(case: Case) -> None:
    found = verdict(case, "oil_mass", "oil.density", result="1..3 g")
    assert found.outcome is Outcome.UNREAD
    assert found.method_holds is None


def test_two_things_may_be_wrong_at_once() -> None:
    """Neither factor alone takes away what is left, so none is named."""
    relation = read_relation("v * d / M")
    labels = {"d": "density", "M": "molar mass"}
    found = judge_chain(relation, "v", place("1/d", "M"), labels)
    assert not found.holds
    assert found.at == 0
    assert found.sentence == "A factor is upside down: density."


def test_a_ratio_is_two_coefficients() -> None:
    both = {"coefficient of soap": 1, "coefficient of oil": -1}
    assert factor_powers("ratio(soap, oil)") == both


def test_a_relation_is_a_product_of_powers() -> None:
    found = relation_powers(read_relation("a * ratio(b, c) / (d * a * d)"))
    assert found == {"coefficient of b": 1, "coefficient of c": -1, "d": -2}


def test_a_sum_is_no_chain() -> None:
    with pytest.raises(ValueError, match="is not a product of factors"):
        relation_powers(read_relation("a + b"))
