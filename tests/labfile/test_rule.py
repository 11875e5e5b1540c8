"""Rules across tables: names, substances, relations, ratios."""

from __future__ import annotations

import pytest

from tests.support.lab import read_tables
from workbook.labfile.rule import RULES


def findings(*edits: tuple[str, str]) -> list[tuple[tuple[str | int, ...], str]]:
    """Return what all rules say of the chalk lab with some texts replaced."""
    file = read_tables(*edits)
    return [finding for rule in RULES for finding in rule(file)]


def test_the_small_lab_keeps_every_rule() -> None:
    assert findings() == []


def test_no_rule_stands_twice() -> None:
    assert len(set(RULES)) == len(RULES)


def test_a_quantity_that_is_defined_twice_is_found_at_both_places() -> None:
    # The hidden share takes the name of the dish.
    found = findings(
        ("[hidden.share]", "[hidden.dish]"), ("share * salt_yield", "dish * salt_yield")
    )
    sentence = "'dish' is defined 2 times; name each apart."
    assert (("readings", "dish"), sentence) in found
    assert (("hidden", "dish"), sentence) in found


@pytest.mark.parametrize("name", ["salt_mass", "dish", "chalk", "limiting"])
def test_a_choice_is_not_called_like_something_else(name: str) -> None:
    found = findings(('name = "fumes"', f'name = "{name}"'))
    assert (
        ("prelab", 0, "name"),
        f"{name!r} is defined 2 times; name each apart.",
    ) in found


def test_every_unknown_name_of_a_relation_is_told() -> None:
    found = findings(('"dish_and_salt - dish"', '"dsh_and_salt - dsh"'))
    unknown = "the relation uses {!r}, which is not defined. Did you mean {!r}?"
    assert [sentence for _, sentence in found] == [
        unknown.format("dsh_and_salt", "dish_and_salt"),
        unknown.format("dsh", "dish"),
    ]


def test_the_relation_of_a_reading_is_checked_too() -> None:
    ((place, sentence),) = findings(("dish + share *", "dish + shore *"))
    assert place == ("readings", "dish_and_salt", "is")
    assert sentence.endswith("Did you mean 'share'?")


def test_both_species_of_a_ratio_are_looked_at() -> None:
    found = findings(('"acid_volume * acid.molarity"', '"dish * ratio(acyd, slt)"'))
    assert [sentence for _, sentence in found if sentence.startswith("ratio")] == [
        "ratio(acyd, slt): 'acyd' is no species of this file. Did you mean 'acid'?",
        "ratio(acyd, slt): 'slt' is no species of this file. Did you mean 'salt'?",
    ]


@pytest.mark.parametrize("span", ["60 .. 99 %", "0.1 .. 0.2 %"])
def test_a_plausible_range_in_the_quantitys_unit_is_passed(span: str) -> None:
    assert findings(("60 .. 99 %", span)) == []


def test_a_ratio_in_several_reactions_is_shown_how_to_name_one() -> None:
    ratio = '"acid_volume * acid.molarity * ratio(gas, chalk)"'
    found = findings(('"acid_volume * acid.molarity"', ratio))
    (said,) = (sentence for _, sentence in found if sentence.startswith("ratio"))
    assert said.endswith(
        "Say which is meant: ratio(gas, chalk, reaction) or ratio(gas, chalk, rinse)."
    )
