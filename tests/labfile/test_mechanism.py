"""Rules on mechanisms."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import LIME, find_mistakes, make_lab
from workbook.labfile.form import MechanismForm

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize(
    ("old", "new", "at", "says"),
    [
        (
            'decoys = ["bare", "whole"]',
            'decoys = ["whole"]',
            "bare = {",
            "'bare' does not keep its atoms and its charge. Mend it, or list it",
        ),
        (
            'decoys = ["bare", "whole"]',
            'decoys = ["bare", "whle"]',
            "decoys = ",
            "'whle' is none of the cards. Did you mean 'whole'?",
        ),
        (
            '["solid", "proton", "gather"]',
            '["solid", "proton", "bare"]',
            "before = ",
            "'bare' is none of the cards.",
        ),
        (
            '"CH3COOH -> CH3COO^-"',
            '"CH3COOH, CH3COO^-"',
            "bare = {",
            "can't stand",
        ),
    ],
)
def test_a_mechanism_that_can_not_be_laid_is_told(
    tmp_path: Path, old: str, new: str, at: str, says: str
) -> None:
    found = find_mistakes(tmp_path, (old, new), lab=LIME)
    assert [each for each in found if each.at.startswith(at) and says in each.sentence]


def test_which_cards_belong_is_of_the_key(tmp_path: Path) -> None:
    lab = make_lab(tmp_path, LIME)
    assert lab.key.decoys["neutralising"] == ("bare", "whole")
    assert lab.key.before["neutralising"] == (("solid", "proton", "gather"),)
    (ask,) = (ask for ask in lab.public.asks if ask.id == "neutralising")
    assert isinstance(ask.form, MechanismForm)
    # By name, so that nothing is told of the order.
    assert list(ask.form.moves) == ["bare", "gather", "proton", "solid", "whole"]
