"""Opening a page for a folder."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from workbook import open_sheet
from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path


def test_the_sheet_of_a_folder_is_opened_without_asking_a_checker(folder: Path) -> None:
    page = open_sheet("postlab", folder)
    assert page._repr_mimebundle_()["text/plain"] == "page: postlab"


def test_the_folder_of_the_notebook_is_taken_when_none_is_named(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    assert open_sheet().card("share") is not None


def test_a_part_that_is_not_there_is_told_without_a_traceback(folder: Path) -> None:
    with pytest.raises(TaskError, match="Did you mean 'prelab'") as caught:
        open_sheet("prelabs", folder)
    assert hasattr(caught.value, "_render_traceback_")


def test_a_damaged_sheet_is_told_without_a_traceback(tmp_path: Path) -> None:
    (tmp_path / "sheet.json").write_text("{")
    with pytest.raises(TaskError, match="damaged") as caught:
        open_sheet("postlab", tmp_path)
    assert hasattr(caught.value, "_render_traceback_")


@pytest.mark.service
def test_a_page_loads_no_heavy_library(folder: Path) -> None:
    program = (
        "import sys; from workbook import open_sheet\n"
        "page = open_sheet('postlab', sys.argv[1]); page.card('acid_part')\n"
        "heavy = {'pandas', 'numpy', 'sympy', 'matplotlib', 'rdkit'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    command = (sys.executable, "-c", program, str(folder))
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.service
def test_importing_the_package_loads_no_widgets() -> None:
    program = "import sys, workbook; print('ipywidgets' in sys.modules)"
    command = (sys.executable, "-c", program)
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
