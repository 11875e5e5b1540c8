"""Steps that ask for no one number, as they stand on a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import LIME, make_lab
from workbook.labfile.course import Conventions
from workbook.solver.bench import prepare
from workbook.solver.form import write_form
from workbook.wire.sheet import ChoiceStep, Option, PredictionStep, Step, TextStep

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab


@pytest.fixture
def lime(tmp_path: Path) -> Lab:
    return make_lab(tmp_path, LIME)


def write(lab: Lab, step: str) -> Step:
    (ask,) = (ask for ask in lab.public.asks if ask.id == step)
    return write_form(ask)


def test_a_prediction_says_that_any_answer_is_accepted(lime: Lab) -> None:
    step = write(lime, "smell")
    assert isinstance(step, PredictionStep)
    assert step.options[1] == Option("sour", "Something sour")
    assert step.allowance.startswith("Accepted: any answer.")


def test_a_text_says_who_marks_it(lime: Lab) -> None:
    step = write(lime, "observations")
    assert isinstance(step, TextStep)
    assert step.prompts == ("while you poured", "after an hour")
    assert step.allowance.startswith("A person reads and marks it")


def test_a_choice_stands_with_its_options(lab: Lab) -> None:
    step = write(lab, "lye_statements")
    assert isinstance(step, ChoiceStep)
    assert step.several
    assert step.options[0].text == "H225 Highly flammable liquid and vapour"


def test_a_lab_of_these_kinds_is_made_ready(lime: Lab) -> None:
    assert prepare(lime, Conventions()).lab is lime
