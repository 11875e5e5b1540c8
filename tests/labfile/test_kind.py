"""The tables of steps that ask for no one number."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from workbook.labfile.kind import PredictionTable, TextTable

TEXT = {"kind": "text", "name": "notes", "asks": "What did you see?"}
PREDICTION = {
    "kind": "prediction",
    "name": "smell",
    "asks": "What will you smell?",
    "options": {"none": "Nothing", "sour": "Something sour"},
}


def test_a_text_may_go_without_prompts_and_without_what_a_marker_looks_for() -> None:
    table = TextTable.model_validate(TEXT)
    assert (table.prompts, table.look_for) == ((), ())


def test_a_prediction_has_no_right_option() -> None:
    with pytest.raises(ValidationError, match="'right' is not a key"):
        PredictionTable.model_validate(PREDICTION | {"right": ["none"]})


def test_a_prediction_offers_two_options_at_least() -> None:
    with pytest.raises(ValidationError, match="at least 2"):
        PredictionTable.model_validate(PREDICTION | {"options": {"none": "Nothing"}})
