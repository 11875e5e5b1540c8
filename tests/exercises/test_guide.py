"""What the guide for authors says can be done, step by step, and gives a sound lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.command import run
from tests.support.exercise import LABS
from tests.support.guide import GUIDE, TAKEN_OUT, blocks, write_guided_lab

if TYPE_CHECKING:
    from pathlib import Path


def test_whoever_follows_the_guide_gets_a_lab_without_a_mistake(
    tmp_path: Path,
) -> None:
    lab = write_guided_lab(tmp_path / "precipitated-chalk")
    assert run("build", lab).exit_code == 0
    checked = run("check", lab, "--draws", 200)
    assert checked.exit_code == 0, checked.output
    assert "for a chemist to confirm" in checked.output


def test_the_guide_names_what_it_tells_to_take_out() -> None:
    assert [name for name in TAKEN_OUT if name not in GUIDE] == []
    assert len(list(blocks())) == 4


def test_the_guide_makes_a_lab_that_no_exercise_is() -> None:
    assert LABS
    assert "precipitated-chalk" not in LABS
