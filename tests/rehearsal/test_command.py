"""The command that rehearses a lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.command import run
from tests.support.lab import make_lab

if TYPE_CHECKING:
    from pathlib import Path


def test_a_rehearsal_prints_a_page_for_each_lab(tmp_path: Path) -> None:
    folder = make_lab(tmp_path).path.parent
    result = run("rehearse", folder, "--attempts", "120")
    assert "chalk-in-acid: " in result.output
    assert "honest attempts judged wrong" in result.output
    is_missed = "MISSED" in result.output
    assert result.exit_code == (1 if is_missed else 0)
    said = "A figure is missed" if is_missed else "Every figure is reached"
    assert result.output.splitlines()[-1].startswith(said)


def test_a_broken_lab_is_told_with_file_and_line(tmp_path: Path) -> None:
    folder = make_lab(tmp_path).path.parent
    (folder / "lab.toml").write_text("[lab]\ntitel = 1\n")
    result = run("rehearse", folder)
    assert result.exit_code == 2
    assert "lab.toml:2" in result.stderr
