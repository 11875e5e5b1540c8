"""The key of a variant: values, worked answers, known mistakes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit, make_lab
from workbook.authoring.key import list_slips, print_answers, print_values
from workbook.authoring.preview import OpenSource

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case


@pytest.fixture
def case(tmp_path: Path) -> Case:
    """Return one variant of the chalk lab, with markup in a name."""
    name = ('name = "mass of chalk"', 'name = "mass of <b>chalk</b>"')
    source = OpenSource(make_lab(tmp_path, edit(CHALK, name)))
    return source.case(source.name_sheet("3"))


def test_every_value_of_the_variant_stands_in_it(case: Case) -> None:
    page = print_values(case, "3")
    # Hidden values too: it is the author's.
    assert "Key of variant 3" in page
    assert "<td>hidden</td>" in page
    assert f"{case.values['chalk_mass']:.2f} g" in page


def test_every_step_has_its_answer(case: Case) -> None:
    answers = print_answers(case)
    assert list(answers) == [ask.id for ask in case.graph.lab.public.asks]
    assert all("<dt>answer</dt>" in each for each in answers.values())


def test_a_text_can_be_no_markup(case: Case) -> None:
    key = "".join((print_values(case, "3"), *print_answers(case).values()))
    assert "mass of &lt;b&gt;chalk" in key
    assert "<b>chalk</b>" not in key


def test_a_mistake_stands_with_its_value_and_sentence(case: Case) -> None:
    slips = list_slips(case, "chalk_amount")
    # Mass times molar mass in the place of mass by molar mass; CaCO3 has 100.086 g/mol:
    # Ca 40.078, C 12.011, 3 O 15.999.
    product = case.values["chalk_mass"] * 100.086
    (upside_down,) = [each for each in slips if each.shown == f"{product:.1f} mol"]
    assert upside_down.sentence


def test_a_reading_knows_no_mistake_of_working(case: Case) -> None:
    assert list_slips(case, "chalk_mass") == ()
    assert list_slips(case, None) == ()
