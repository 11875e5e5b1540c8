"""The tables of steps that ask for no one number."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from workbook.labfile.kind import MatchingTable, PredictionTable, TextTable

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


MATCHING = {
    "kind": "matching",
    "name": "streams",
    "asks": "Where does each go?",
    "rows": {"lime": "lime", "acid": "acid"},
    "options": {"base": "Aqueous base", "sink": "The sink"},
    "belongs": {"lime": ["base"], "acid": ["sink"]},
}


def test_what_belongs_is_read_by_row() -> None:
    table = MatchingTable.model_validate(MATCHING)
    assert table.belongs == {"lime": ("base",), "acid": ("sink",)}


@pytest.mark.parametrize(
    ("belongs", "says"),
    [
        ({"lime": ["base"]}, "belongs says nothing of 'acid'"),
        ({"lime": ["base"], "acid": ["sinc"]}, "not among the options. Did you mean"),
        ({"lime": [], "acid": ["sink"]}, "0 options belong to 'lime'"),
        ({"lime": ["base"], "acid": ["sink"], "oil": []}, "'oil', which is not among"),
    ],
)
def test_what_belongs_is_said_of_every_row_and_of_no_other(
    belongs: dict[str, list[str]], says: str
) -> None:
    with pytest.raises(ValidationError, match=says):
        MatchingTable.model_validate(MATCHING | {"belongs": belongs})
