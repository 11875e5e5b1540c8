"""The folder that a student gets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import name_sheet
from workbook.client.place import read_sheet
from workbook.issuing.folder import (
    encode_notebooks,
    encode_sheet,
    fill_folder,
    find_out_of_step,
)

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import PublicHalf
    from workbook.solver.source import CourseSource
    from workbook.wire.sheet import Sheet


@pytest.fixture(scope="module")
def sheet(source: CourseSource) -> Sheet:
    return source.sheet(name_sheet("a1"))


def test_a_folder_holds_two_notebooks_and_a_sheet(
    tmp_path: Path, sheet: Sheet, public: PublicHalf
) -> None:
    fill_folder(tmp_path / "a1" / "soap", sheet, encode_notebooks(public))
    found = {path.name for path in (tmp_path / "a1" / "soap").iterdir()}
    assert found == {"prelab.ipynb", "postlab.ipynb", "sheet.json"}


def test_the_student_side_reads_the_same_sheet(
    tmp_path: Path, sheet: Sheet, public: PublicHalf
) -> None:
    fill_folder(tmp_path / "a1", sheet, encode_notebooks(public))
    assert read_sheet(tmp_path / "a1") == sheet


def test_a_sheet_names_no_key_relation_or_hidden_value(sheet: Sheet) -> None:
    text = encode_sheet(sheet).decode()
    for secret in ("recovery", "plausible", "oil_volume * oil.density", "5a5a5a5a"):
        assert secret not in text


def test_notebooks_that_were_just_built_are_in_step(
    tmp_path: Path, public: PublicHalf
) -> None:
    for name, content in encode_notebooks(public).items():
        (tmp_path / name).write_bytes(content)
    assert find_out_of_step(tmp_path, public) == ()


def test_a_changed_and_a_missing_notebook_are_out_of_step(
    tmp_path: Path, public: PublicHalf
) -> None:
    (tmp_path / "prelab.ipynb").write_bytes(
        encode_notebooks(public)["prelab.ipynb"] + b" "
    )
    assert find_out_of_step(tmp_path, public) == ("prelab.ipynb", "postlab.ipynb")
