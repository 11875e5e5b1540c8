"""Rules on steps."""

from __future__ import annotations

import pytest

from tests.support.lab import LIME, edit, read_tables
from workbook.labfile.position import read_toml_text
from workbook.labfile.schema import (
    AlgebraTable,
    ChoiceTable,
    LabFile,
    LimitingTable,
    ReadingTable,
    StepTable,
)
from workbook.labfile.step import (
    molar_masses_are_asked,
    placed_steps,
    step_id,
    steps_are_single,
    steps_ask_what_exists,
    ties_fit,
    tolerances_fit,
)


@pytest.mark.parametrize(
    ("step", "name"),
    [
        (ReadingTable(kind="reading", of="dish", asks="?"), "dish"),
        (AlgebraTable(kind="algebra", of="soap", asks="?"), "soap.molar_mass"),
        (
            LimitingTable(
                kind="limiting", name="first", of={"a": "b", "c": "d"}, asks="?"
            ),
            "first",
        ),
        (
            ChoiceTable(
                kind="choice",
                name="fumes",
                options={"a": "A", "b": "B"},
                right=("a",),
                asks="?",
            ),
            "fumes",
        ),
    ],
)
def test_a_step_is_known_by_what_it_asks_for(step: StepTable, name: str) -> None:
    assert step_id(step) == name


def test_steps_are_placed_in_the_order_of_the_file() -> None:
    places = [place for place, _ in placed_steps(read_tables())]
    assert places[:3] == [("prelab", 0), ("prelab", 1), ("postlab", 0)]
    assert places[-1] == ("postlab", 9)


def test_a_step_that_is_asked_twice_is_found_at_both_places() -> None:
    file = read_tables(('of = "salt_yield"\nasks', 'of = "percent_yield"\nasks'))
    assert list(steps_are_single(file)) == [
        (("postlab", 8), "'percent_yield' is asked 2 times; ask it once."),
        (("postlab", 9), "'percent_yield' is asked 2 times; ask it once."),
    ]


def test_every_amount_of_a_limiting_reagent_must_exist() -> None:
    file = read_tables(('acid = "acid_amount"', 'acid = "acid_amont"'))
    assert list(steps_ask_what_exists(file)) == [
        (
            ("postlab", 5, "of"),
            "'acid_amont' is no quantity of this file. Did you mean 'acid_amount'?",
        )
    ]


def test_reagents_that_meet_in_two_reactions_have_no_one_ratio() -> None:
    file = read_tables(
        ('of = { chalk = "chalk_amount", acid', 'of = { chalk = "chalk_amount", gas')
    )
    ((_, sentence),) = steps_ask_what_exists(file)
    assert sentence == "2 equations hold 'chalk', 'gas' together; exactly one must."


def test_a_molar_mass_that_is_asked_is_passed() -> None:
    assert list(molar_masses_are_asked(read_tables())) == []


@pytest.mark.parametrize("widen", ["0.5 %", "0.02 g", "20 mg"])
def test_a_tolerance_is_a_share_or_in_a_unit_of_the_step(widen: str) -> None:
    assert list(tolerances_fit(read_tables(('"0.5 %"', f'"{widen}"')))) == []


@pytest.mark.parametrize(
    ("step", "unit"),
    [
        ('asks = "Read the volume of the acid."', "mL"),
        ('asks = "Derive the molar mass of the salt from that of the chalk."', "g/mol"),
    ],
)
def test_a_tolerance_is_held_against_the_unit_of_its_kind_of_step(
    step: str, unit: str
) -> None:
    file = read_tables((step, f'{step}\nwiden = "1 K"'))
    ((_, sentence),) = tolerances_fit(file)
    assert sentence == (
        f"'1 K' measures temperature; a percentage or something in {unit} is expected."
    )


def tie(closest: str) -> tuple[str, str]:
    return 'name = "limiting"', f'name = "limiting"\nclosest = "{closest}"'


@pytest.mark.parametrize("closest", ["1 %", "0.5 %", "8 %"])
def test_a_small_percentage_says_how_near_two_reagents_may_come(closest: str) -> None:
    assert list(ties_fit(read_tables(tie(closest)))) == []


@pytest.mark.parametrize(
    ("closest", "sentence"),
    [
        ("0.01 mol", "'0.01 mol' is no percentage; write it like \"1 %\"."),
        ("0 %", "'0 %' is not a small percentage above zero"),
        ("60 %", "'60 %' is not a small percentage above zero"),
    ],
)
def test_anything_else_is_no_distance_of_two_reagents(
    closest: str, sentence: str
) -> None:
    ((place, said),) = ties_fit(read_tables(tie(closest)))
    assert place == ("postlab", 5, "closest")
    assert said.startswith(sentence)


def test_a_table_that_compares_nothing_has_no_near_tie() -> None:
    text = edit(LIME, ('limiting = "amount"', 'closest = "1 %"'))
    file = LabFile.model_validate(read_toml_text(text, "lab.toml").data)
    ((_, said),) = ties_fit(file)
    assert said.startswith("the table does not ask which reagent limits")


def test_a_limiting_reagent_that_is_no_species_is_told_once() -> None:
    file = read_tables(('acid = "acid_amount"', 'acyd = "acid_amount"'))
    ((_, sentence),) = steps_ask_what_exists(file)
    assert sentence == "'acyd' is no species of this file. Did you mean 'acid'?"
