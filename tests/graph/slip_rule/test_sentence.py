"""What a student reads of a slip."""

from __future__ import annotations

import re

import pytest

from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE, TOGETHER, say, say_together

ALL = (*ALONE.values(), *TOGETHER.values())


def test_every_kind_but_an_authors_own_has_a_sentence() -> None:
    assert set(SlipKind) - set(ALONE) == {SlipKind.OWN}


@pytest.mark.parametrize("sentence", ALL)
def test_a_sentence_holds_no_digit_and_ends_in_a_full_stop(sentence: str) -> None:
    assert not re.search(r"\d", sentence)
    assert sentence[0].isupper()
    assert sentence.endswith(".")


def test_mistakes_without_a_common_sentence_are_both_told() -> None:
    kinds = frozenset({SlipKind.TEN, SlipKind.GAS_VOLUME})
    said = say_together(kinds, (), {})
    assert ALONE[SlipKind.TEN] in said
    assert ALONE[SlipKind.GAS_VOLUME] in said


def test_a_common_sentence_stands_for_its_mistakes() -> None:
    kinds = frozenset({SlipKind.RATIO_ON_GRAMS, SlipKind.MOLAR_MASS_OF_ANOTHER})
    assert say_together(kinds, (), {}) == TOGETHER[kinds]


def test_the_author_can_reword_a_sentence() -> None:
    kinds = frozenset({SlipKind.RATIO_ON_GRAMS, SlipKind.MOLAR_MASS_OF_ANOTHER})
    reworded = {"ratio_on_grams": "Moles first."}
    assert say(SlipKind.RATIO_ON_GRAMS, reworded) == "Moles first."
    assert "Moles first." in say_together(kinds, (), reworded)


def test_an_authors_own_mistake_is_told_beside_a_known_one() -> None:
    said = say_together(frozenset({SlipKind.TEN}), ("The ferry was late.",), {})
    assert "The ferry was late." in said
    assert ALONE[SlipKind.TEN] in said
