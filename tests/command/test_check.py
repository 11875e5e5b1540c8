"""The author's commands, from the command line."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

from tests.support.command import break_lab, copy_lab, run

if TYPE_CHECKING:
    from pathlib import Path

FEW = ("--draws", "20")


def test_check_tells_as_json_what_an_editor_needs(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    break_lab(lab)
    result = run("check", lab, *FEW, "--json")
    assert result.exit_code == 2
    (found,) = json.loads(result.stdout)["labs"]
    assert found["lab"] == str(lab)
    finding, *_ = found["findings"]
    assert finding["file"] == str(lab / "lab.toml")
    assert "oil.densty" in finding["says"]
    assert (
        "oil.densty" in (lab / "lab.toml").read_text().splitlines()[finding["line"] - 1]
    )


def test_check_lists_what_a_chemist_has_to_confirm(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    run("build", lab)
    result = run("check", lab, *FEW)
    assert result.exit_code == 0
    assert "for a chemist to confirm before use:" in result.output
    assert "density 0.911 g/mL of olive oil" in result.output


def test_check_of_a_good_lab_as_json_ends_well(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    run("build", lab)
    result = run("check", lab, *FEW, "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["labs"][0]["findings"] == []


def test_check_looks_through_several_labs_and_passes_over_files(
    tmp_path: Path,
) -> None:
    good, bad = copy_lab(tmp_path / "good"), copy_lab(tmp_path / "bad")
    run("build", good)
    break_lab(bad)
    (tmp_path / "course.toml").touch()
    result = run("check", tmp_path / "course.toml", good, bad, *FEW)
    assert result.exit_code == 2
    assert "olive-oil-soap: 20 draws" in result.output
    assert re.search(r"^Looked through in [0-9.]+ s\.$", result.output, re.MULTILINE)
    assert str(bad / "lab.toml") in result.stderr
    assert str(good) not in result.stderr


def test_check_of_a_file_alone_says_what_a_lab_is(tmp_path: Path) -> None:
    (tmp_path / "course.toml").touch()
    result = run("check", tmp_path / "course.toml")
    assert result.exit_code == 2
    assert "a lab is a folder" in result.stderr
