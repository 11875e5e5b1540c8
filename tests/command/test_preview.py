"""A preview has a folder of its own, which no student gets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.support.command import run, snapshot
from tests.support.soap import LAB, LAB_FOLDER, make_course
from workbook.command.preview import CALL, NOTEBOOK


@pytest.fixture(autouse=True)
def at_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run every command in a folder of its own."""
    monkeypatch.chdir(tmp_path)


def test_a_preview_is_made_beside_nothing_of_a_students() -> None:
    before = snapshot(LAB_FOLDER)
    result = run("preview", LAB_FOLDER, "--no-open")
    assert result.exit_code == 0
    assert "keep it from students" in result.output
    assert set(snapshot(Path("previews"))) == {
        f"{LAB}-1/preview.ipynb",
        f"{LAB}-1/preview.txt",
    }
    assert snapshot(LAB_FOLDER) == before


def test_its_notebook_holds_one_call_and_no_value() -> None:
    run("preview", LAB_FOLDER, "--no-open")
    notebook = json.loads(Path(f"previews/{LAB}-1/{NOTEBOOK}").read_text("utf-8"))
    code = [cell for cell in notebook["cells"] if cell["cell_type"] == "code"]
    assert ["".join(cell["source"]) for cell in code] == [CALL]
    assert code[0]["outputs"] == []


def test_a_second_preview_leaves_the_first() -> None:
    run("preview", LAB_FOLDER, "--no-open")
    run("preview", LAB_FOLDER, "--no-open")
    assert sorted(path.name for path in Path("previews").iterdir()) == [
        f"{LAB}-1",
        f"{LAB}-2",
    ]


def test_no_students_folder_reaches_a_preview(tmp_path: Path) -> None:
    run("preview", LAB_FOLDER, "--no-open")
    run("issue", make_course(tmp_path), "--to", "out")
    run("try", LAB_FOLDER, "--no-open")
    for folder in ("out/students", f"trials/{LAB}-1"):
        for name, content in snapshot(Path(folder)).items():
            assert "preview" not in name
            assert b"authoring" not in content
