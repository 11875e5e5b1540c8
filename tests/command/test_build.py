"""Build writes notebooks and drawings, and overwrites nothing unasked."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.command import run
from tests.support.lab import CHALK, edit
from workbook.command import build
from workbook.issuing.folder import fill_folder, gather_files
from workbook.labfile.reader import read_lab
from workbook.solver.practice import PracticeSource

if TYPE_CHECKING:
    from pathlib import Path

GAS = ('name = "carbon dioxide"', 'name = "carbon dioxide"\nsmiles = "O=C=O"')


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    """Return the folder of the chalk lab with a structure."""
    folder = tmp_path / "chalk"
    folder.mkdir()
    (folder / "lab.toml").write_text(edit(CHALK, GAS), encoding="utf-8")
    return folder


def test_structures_are_drawn_into_the_folder(lab: Path) -> None:
    assert run("build", lab).exit_code == 0
    assert (lab / "scheme.svg").read_bytes().startswith(b"<svg")
    assert "Nothing was written" in run("build", lab).output


def test_a_drawing_of_another_structure_is_left_until_asked(lab: Path) -> None:
    run("build", lab)
    path = lab / "lab.toml"
    path.write_text(path.read_text().replace("O=C=O", "C(=O)=O"), encoding="utf-8")
    before = (lab / "scheme.svg").read_bytes()
    refused = run("build", lab)
    assert refused.exit_code == 2
    assert "scheme.svg" in refused.stderr
    assert (lab / "scheme.svg").read_bytes() == before
    assert run("build", lab, "--replace").exit_code == 0
    assert (lab / "scheme.svg").read_bytes() != before


def test_check_tells_of_a_drawing_of_another_structure(lab: Path) -> None:
    run("build", lab)
    path = lab / "lab.toml"
    path.write_text(path.read_text().replace("O=C=O", "C(=O)=O"), encoding="utf-8")
    assert "this is not the drawing that lab.toml gives" in run("check", lab).stderr


def test_without_rdkit_the_notebooks_are_written_and_one_sentence_says_so(
    lab: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(build, "has_structures", lambda: False)
    result = run("build", lab)
    assert result.exit_code == 0
    assert (lab / "prelab.ipynb").is_file()
    assert not (lab / "scheme.svg").exists()
    assert "Not drawn: scheme.svg and scheme-rinse.svg. RDKit is not" in result.output


def test_a_student_gets_the_drawings_beside_the_notebooks_that_show_them(
    lab: Path, tmp_path: Path
) -> None:
    run("build", lab)
    source = PracticeSource(lab)
    fill_folder(
        tmp_path / "a1", source.sheet(source.fresh()), gather_files(read_lab(lab))
    )
    found = {path.name for path in (tmp_path / "a1").iterdir()}
    assert {"scheme.svg", "scheme-rinse.svg", "prelab.ipynb"} <= found
    assert "](scheme.svg)" in (tmp_path / "a1" / "prelab.ipynb").read_text("utf-8")
