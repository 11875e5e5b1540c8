"""The student's folder."""

from __future__ import annotations

from itertools import islice
from pathlib import Path

import msgspec
import pytest

from workbook.client.place import (
    SHEET_FILE,
    Paper,
    Part,
    locate_record,
    name_papers,
    read_sheet,
)
from workbook.errors import TaskError
from workbook.wire.sheet import Sheet, SheetId


def test_the_sheet_of_a_folder_is_read(folder: Path, sheet: Sheet) -> None:
    assert read_sheet(folder) == sheet


def test_a_folder_without_a_sheet_has_none(tmp_path: Path) -> None:
    assert read_sheet(tmp_path) is None


@pytest.mark.parametrize("text", ["", "{", "[]", '{"version": 1}', "\x00"])
def test_a_damaged_sheet_is_named_with_what_to_do(tmp_path: Path, text: str) -> None:
    (tmp_path / SHEET_FILE).write_text(text)
    with pytest.raises(TaskError, match=r"sheet\.json is damaged .* Fetch it again"):
        read_sheet(tmp_path)


def test_a_sheet_of_another_version_is_refused_by_name(
    tmp_path: Path, sheet: Sheet
) -> None:
    later = msgspec.structs.replace(sheet, version=9)
    (tmp_path / SHEET_FILE).write_bytes(msgspec.json.encode(later))
    with pytest.raises(TaskError, match="version 9, and this workbook reads version 1"):
        read_sheet(tmp_path)


def test_a_sheet_that_is_a_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / SHEET_FILE).mkdir()
    with pytest.raises(TaskError, match=r"sheet\.json can't be read"):
        read_sheet(tmp_path)


def test_each_part_has_a_record_of_its_own(sheet: Sheet) -> None:
    names = {locate_record(Path(), sheet.id, part).name for part in Part}
    assert names == {
        "cold-cream-prelab.attempts.jsonl",
        "cold-cream-postlab.attempts.jsonl",
    }


@pytest.mark.parametrize(
    ("paper", "names"),
    [
        (Paper.HAND_IN, ["s07.handin.json", "s07-2.handin.json", "s07-3.handin.json"]),
        (Paper.REPORT, ["s07.report.html", "s07-2.report.html", "s07-3.report.html"]),
    ],
)
def test_later_papers_are_numbered(
    sheet: Sheet, paper: Paper, names: list[str]
) -> None:
    assert list(islice(name_papers(sheet.id, paper), 3)) == names


@pytest.mark.parametrize("name", ["", "../s07", "a/b", ".hidden", "a\\b", "a b"])
def test_a_name_that_could_leave_the_folder_is_refused(name: str) -> None:
    with pytest.raises(TaskError, match="can't stand in a file's name"):
        name_papers(SheetId("autumn", "cold-cream", 1, name), Paper.REPORT)
    with pytest.raises(TaskError, match="can't stand in a file's name"):
        locate_record(Path(), SheetId("autumn", name, 1, "s07"), Part.PRELAB)
