"""Rules on reagent tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import LIME, find_mistakes, make_lab

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (
            'amount = "planned_lime_amount" }',
            'amount = "planned_lime_amont" }',
            "'planned_lime_amont' is no quantity and no given of this file. Did you",
        ),
        (
            'measured = "planned_vinegar"',
            'measured = "residue"',
            "'residue' is no quantity and no given of this file.",
        ),
        (
            'equivalents = "vinegar_equivalents"',
            'equivalents = "planned_lime_amount"',
            "'planned_lime_amount' is asked 2 times; ask it once.",
        ),
        (
            'limiting = "amount"',
            'limiting = "measured"',
            "'planned_lime' is no quantity of this file.",
        ),
        (
            'limiting = "amount"',
            'limiting = "equivalents"',
            "limiting names the column 'equivalents', in which every row must have",
        ),
        (
            "lime = { measured",
            "lyme = { measured",
            "'lyme' is no species of this file. Did you mean 'lime'?",
        ),
        (
            'columns = { measured = "measured out", ',
            "columns = { ",
            "a row names 'measured', which is not among the columns.",
        ),
    ],
)
def test_a_table_that_can_not_be_filled_is_told(
    tmp_path: Path, old: str, new: str, says: str
) -> None:
    sentences = [
        each.sentence for each in find_mistakes(tmp_path, (old, new), lab=LIME)
    ]
    assert any(says in sentence for sentence in sentences), sentences


def test_what_a_cell_asks_has_a_label_and_decides_what_limits(tmp_path: Path) -> None:
    lab = make_lab(tmp_path, LIME)
    assert lab.public.labels["vinegar_equivalents"].text == "equivalents of acetic acid"
    assert lab.key.limiting["plan"] == {
        "lime": "planned_lime_amount",
        "vinegar": "planned_vinegar_amount",
    }


def test_a_cell_that_rests_on_what_is_hidden_is_told(tmp_path: Path) -> None:
    edits = (
        ('is = "planned_lime / lime', 'is = "purity * planned_lime / lime'),
        (
            "[readings.residue]",
            '[hidden.purity]\ndraw = "0.8 .. 0.9"\n\n[readings.residue]',
        ),
    )
    found = find_mistakes(tmp_path, *edits, lab=LIME)
    assert any("follows from the hidden 'purity'" in each.sentence for each in found)
