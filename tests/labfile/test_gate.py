"""Rules on the gate before the lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit, find_mistakes, make_lab

if TYPE_CHECKING:
    from pathlib import Path

#: The choice before the chalk lab stands at the gate.
GATED = ('name = "fumes"', 'name = "fumes"\ngate = true')


def test_a_step_at_the_gate_is_known_and_others_are_not(tmp_path: Path) -> None:
    public = make_lab(tmp_path, edit(CHALK, GATED)).public
    assert public.gate == ("fumes",)
    assert [ask.id for ask in public.prelab if ask.is_gate] == ["fumes"]
    assert not any(ask.is_gate for ask in public.postlab)


def test_a_lab_has_no_gate_unless_it_says_so(tmp_path: Path) -> None:
    assert make_lab(tmp_path).public.gate == ()


def test_a_gate_after_the_lab_is_found(tmp_path: Path) -> None:
    (found,) = find_mistakes(tmp_path, ("[[postlab]]\n", "[[postlab]]\ngate = true\n"))
    assert found.at == "gate = true"
    assert found.sentence.startswith("a gate stands before the lab;")


def test_a_gate_that_only_a_person_could_open_is_found(tmp_path: Path) -> None:
    text = '[[prelab]]\nkind = "text"\nname = "plan"\nasks = "?"\ngate = true\n\n'
    (found,) = find_mistakes(tmp_path, ("[[prelab]]\n", f"{text}[[prelab]]\n"))
    assert "marked by a person" in found.sentence


@pytest.mark.parametrize("written", ['"yes"', "1"])
def test_a_gate_is_true_or_false(tmp_path: Path, written: str) -> None:
    gate = ('name = "fumes"', f'name = "fumes"\ngate = {written}')
    (found,) = find_mistakes(tmp_path, gate)
    assert found.at == f"gate = {written}"
