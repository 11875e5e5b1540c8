"""Answers keep what was typed, to the last blank."""

from __future__ import annotations

import msgspec
import pytest

from tests.wire.conftest import ANSWERS
from workbook.wire.answer import Answer, Typed

_decoder = msgspec.json.Decoder(Answer)


@pytest.mark.parametrize("step", ANSWERS)
def test_an_answer_is_read_back(step: str) -> None:
    answer = ANSWERS[step]
    assert _decoder.decode(msgspec.json.encode(answer)) == answer


@pytest.mark.parametrize(
    "text", ["1.50 g", " 1,5\tg ", "1.5×10⁻³ mol", "", "\x00", "🧪"]
)
def test_nothing_that_is_typed_is_changed(text: str) -> None:
    assert _decoder.decode(msgspec.json.encode(Typed(text))) == Typed(text)


@pytest.mark.parametrize(
    "bad",
    [
        b'{"type": "typed", "text": 1.5}',
        b'{"type": "typed"}',
        b'{"type": "typed", "text": "1", "value": 1}',
        b'{"type": "told", "text": "1"}',
        b'{"text": "1"}',
        b'{"type": "built", "factors": [{"factor": "d"}], "text": "1"}',
        b'{"type": "chosen", "options": "a"}',
    ],
)
def test_an_answer_of_no_known_form_is_refused(bad: bytes) -> None:
    """A number in the place of a text would have lost its figures already."""
    with pytest.raises(msgspec.DecodeError):
        _decoder.decode(bad)


def test_an_answer_can_not_be_changed() -> None:
    with pytest.raises(AttributeError):
        Typed("1 g").text = "2 g"  # type: ignore[misc]  # on purpose
