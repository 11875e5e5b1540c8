"""A lab is rehearsed from its file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.lab import make_lab
from tests.support.variant import VARIED
from workbook.rehearsal.lesson import rehearse

if TYPE_CHECKING:
    from pathlib import Path


def test_a_rehearsal_ends_when_enough_was_tried(tmp_path: Path) -> None:
    seen = [tally.attempts for tally in rehearse(make_lab(tmp_path), 150, seed=3)]
    assert seen[-1] >= 150
    assert all(each >= 150 for each in seen[-1:])


def test_the_same_seed_gives_the_same_figures(tmp_path: Path) -> None:
    lab = make_lab(tmp_path)
    first, second = ([*rehearse(lab, 50, seed=3)][-1] for _ in range(2))
    assert first == second


def test_a_lab_of_other_steps_is_rehearsed_too(tmp_path: Path) -> None:
    *_, tally = rehearse(make_lab(tmp_path), 300, seed=1)
    assert tally.honest_wrong.of > 0
    assert tally.honest_wrong.hits == 0, tally.examples


def test_every_variant_takes_its_turn(tmp_path: Path) -> None:
    *_, tally = rehearse(make_lab(tmp_path, VARIED), 400, seed=1)
    assert tally.variants_inside.of >= 3
    assert tally.honest_wrong.hits == 0, tally.examples
