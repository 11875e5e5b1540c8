"""Verdicts: a closed list of outcomes, some of which cost no try."""

from __future__ import annotations

import msgspec
import pytest

from tests.wire.conftest import VERDICT
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict


def test_a_verdict_is_read_back() -> None:
    encoded = msgspec.json.encode(VERDICT)
    assert msgspec.json.decode(encoded, type=Verdict) == VERDICT


def test_a_verdict_claims_nothing_that_it_is_not_told() -> None:
    plain = Verdict(Outcome.WRONG, "Not so.")
    assert not plain.value_holds
    assert not plain.follows
    assert plain.method_holds is None
    assert plain.at is None


@pytest.mark.parametrize("outcome", Outcome)
def test_an_outcome_crosses_as_its_word(outcome: Outcome) -> None:
    encoded = msgspec.json.encode(Verdict(outcome, ""))
    assert f'"{outcome.value}"'.encode() in encoded


def test_an_outcome_that_is_not_listed_is_refused() -> None:
    with pytest.raises(msgspec.ValidationError):
        msgspec.json.decode(b'{"outcome": "perfect", "sentence": ""}', type=Verdict)


def test_only_what_was_not_judged_costs_no_try() -> None:
    judged = {
        Outcome.RIGHT,
        Outcome.FOLLOWS,
        Outcome.FIGURES,
        Outcome.SLIP,
        Outcome.WRONG,
        Outcome.DIMENSION,
        Outcome.PARTLY,
        Outcome.COMMITTED,
        Outcome.NOTED,
        Outcome.KEPT,
    }
    assert set(Outcome) - NO_ATTEMPT == judged
