"""Factor chains: which relations they can express, and from where they start."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.chain import (
    chain_starts,
    chains_can_be_built,
    is_product,
    ratios_in,
)
from workbook.relation.reader import read_relation

RELATION = '"chalk_mass / chalk.molar_mass"'


@pytest.mark.parametrize(
    "text",
    ["volume", "volume * oil.density", "a / (b / c)", "amount * ratio(soap, oil)"],
)
def test_names_and_ratios_make_a_product(text: str) -> None:
    assert is_product(read_relation(text))


@pytest.mark.parametrize(
    "text", ["2 * a", "a + b", "-a", "a^2", "min(a, b)", "a * (b - c)"]
)
def test_a_number_a_sum_or_a_function_is_no_factor(text: str) -> None:
    assert not is_product(read_relation(text))


def test_ratios_are_found_wherever_they_stand() -> None:
    relation = read_relation("min(a * ratio(x, y), -(b / ratio(z, y)))")
    assert ratios_in(relation) == (("x", "y"), ("z", "y"))
    assert ratios_in(read_relation("ratio(x, y, wash)")) == (("x", "y", "wash"),)


def test_a_chain_starts_from_what_is_no_constant() -> None:
    file = read_tables()
    relation = file.quantities["chalk_amount"].relation
    assert chain_starts(file, relation) == ("chalk_mass",)


@pytest.mark.parametrize(
    "relation",
    [
        '"planned_chalk / chalk.molar_mass"',
        '"chalk_mass / chalk.density / chalk.molar_mass"',
        '"chalk_mass / (chalk.molar_mass * ratio(acid, chalk))"',
    ],
)
def test_a_chain_of_offered_factors_is_passed(relation: str) -> None:
    assert list(chains_can_be_built(read_tables((RELATION, relation)))) == []


def test_a_ratio_of_another_reaction_is_not_offered() -> None:
    relation = '"chalk_mass / chalk.molar_mass * ratio(acetate, vinegar)"'
    found = list(chains_can_be_built(read_tables((RELATION, relation))))
    place, sentence = found[0]
    assert place == ("postlab", 4, "of")
    assert "needs a factor of 'acetate'" in sentence


def test_what_the_ends_are_of_decides_which_equation_is_offered() -> None:
    # From chalk to vinegar, both in the reaction of the rinse.
    relation = '"chalk_mass / chalk.molar_mass * ratio(vinegar, chalk)"'
    file = read_tables(
        (f'of = "chalk"\nis = {RELATION}', f'of = "vinegar"\nis = {relation}'),
    )
    assert list(chains_can_be_built(file)) == []


def test_an_equation_that_can_not_be_read_is_left_to_its_own_rule() -> None:
    file = read_tables(("chalk + 2 acid ->", "chalk + 2 acid"))
    assert list(chains_can_be_built(file)) == []


@pytest.mark.parametrize(("reaction", "count"), [("reaction", 0), ("rinse", 1)])
def test_a_chain_takes_its_coefficients_from_the_equation_of_its_ends(
    reaction: str, count: int
) -> None:
    relation = f'"chalk_mass / chalk.molar_mass * ratio(gas, chalk, {reaction})"'
    file = read_tables(('"chalk_mass / chalk.molar_mass"', relation))
    found = [said for _, said in chains_can_be_built(file)]
    assert len(found) == count
    assert all("those of another equation are offered" in said for said in found)
