"""What a step shows besides its question: nothing of the key."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import LIME, make_lab
from workbook.labfile.form import MatchingForm, TextForm, rows_of

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Ask, Lab


@pytest.fixture
def lime(tmp_path: Path) -> Lab:
    return make_lab(tmp_path, LIME)


def find(lab: Lab, step: str) -> Ask:
    (ask,) = (ask for ask in lab.public.asks if ask.id == step)
    return ask


def test_a_prediction_shows_its_options_alone(lime: Lab) -> None:
    ask = find(lime, "smell")
    assert (ask.kind, ask.of, ask.form) == ("prediction", None, None)
    assert dict(ask.options)["sour"] == "Something sour"


def test_a_text_shows_its_prompts_and_keeps_what_earns_marks(lime: Lab) -> None:
    ask = find(lime, "observations")
    assert ask.form == TextForm(("while you poured", "after an hour"))
    assert lime.key.look_for["observations"][0] == "Warmth on mixing."
    assert "Warmth" not in repr(lime.public)


def test_a_matching_shows_rows_and_options_and_not_what_belongs(lime: Lab) -> None:
    ask = find(lime, "streams")
    assert ask.form == MatchingForm((("lime", "lime"), ("vinegar", "vinegar")))
    assert rows_of(ask.form) == {"lime": "lime", "vinegar": "vinegar"}
    assert lime.key.belongs["streams"] == {"lime": ("base",), "vinegar": ("acid",)}


def test_other_kinds_have_no_rows(lime: Lab) -> None:
    assert rows_of(find(lime, "observations").form) == {}
