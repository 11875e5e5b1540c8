"""The verdict on the steps of a mechanism."""

from __future__ import annotations

import pytest

from workbook.judge.mechanism import judge_mechanism
from workbook.labfile.form import MechanismForm, MoveForm
from workbook.matter.change import read_change
from workbook.wire.verdict import Outcome, Verdict

CHANGES = {
    "attack": "CH3COOC2H5 + OH^- -> C4H9O3^-",
    "part": "C4H9O3^- -> CH3COOH + C2H5O^-",
    "proton": "CH3COOH + C2H5O^- -> CH3COO^- + C2H5OH",
    # Balanced, but it leaves out that the addition comes first.
    "stroke": "CH3COOC2H5 + OH^- -> CH3COOH + C2H5O^-",
    # The charge is not kept.
    "lone": "CH3COOC2H5 + OH^- -> C4H9O3",
}
FORM = MechanismForm(
    {key: MoveForm(f"it {key}s", read_change(text)) for key, text in CHANGES.items()}
)


def verdict(*cards: str) -> Verdict:
    before = (("attack", "part", "proton"),)
    return judge_mechanism(cards, FORM, before, ("stroke", "lone"))


def test_the_steps_in_order_without_a_decoy_are_right() -> None:
    said = verdict("attack", "part", "proton")
    assert (said.outcome, said.value_holds) == (Outcome.RIGHT, True)


def test_a_card_that_loses_charge_is_named() -> None:
    said = verdict("attack", "lone", "part", "proton")
    assert (said.outcome, said.at) == (Outcome.WRONG, 1)
    assert "“it lones” does not keep its atoms or its charge" in said.sentence


def test_a_balanced_card_that_does_not_belong_is_not_named() -> None:
    said = verdict("stroke", "proton")
    assert (said.outcome, said.at) == (Outcome.WRONG, None)
    assert "stroke" not in said.sentence


@pytest.mark.parametrize(
    ("cards", "outcome"),
    [
        (("part", "attack", "proton"), Outcome.WRONG),
        (("attack", "part"), Outcome.PARTLY),
        ((), Outcome.BLANK),
        (("attack", "attack"), Outcome.UNREAD),
        (("attack", "gold"), Outcome.UNREAD),
    ],
)
def test_the_rest_is_judged_as_an_order(
    cards: tuple[str, ...], outcome: Outcome
) -> None:
    assert verdict(*cards).outcome is outcome
