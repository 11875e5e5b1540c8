"""What a service's record holds of a course."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.json import encode

from tests.support.recorded import make_record, name_record
from tests.support.soap import COURSE, LAB, NOON, make_attempts, name_sheet
from workbook.command.recording import reach_recording
from workbook.errors import TaskError
from workbook.marking.recorded import RecordedSheet
from workbook.wire.answer import Typed
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path


def test_a_sheet_is_read_as_it_was_answered_and_handed_in(tmp_path: Path) -> None:
    record = make_record(tmp_path / "record.sqlite")
    (attempt,) = make_attempts([("dish", Typed("45.05 g"))])
    record.take(name_sheet("c3"), attempt)
    record.take_hand_in(name_sheet("c3"), "ab", NOON)
    record.take_hand_in(name_sheet("a1"), "cd", NOON)
    address = name_record(tmp_path / "record.sqlite")
    found = reach_recording(address, COURSE, [LAB])
    assert list(found.sheets) == [name_sheet("a1"), name_sheet("c3")]
    assert [found.read(sheet) for sheet in found.sheets] == [
        RecordedSheet(name_sheet("a1"), (), (NOON,)),
        RecordedSheet(name_sheet("c3"), (attempt,), (NOON,)),
    ]
    assert reach_recording(address, "other", [LAB]).sheets == []


def test_a_folder_gives_back_what_was_put_there(tmp_path: Path) -> None:
    (attempt,) = make_attempts([("dish", Typed("45.05 g"))])
    put = [
        RecordedSheet(name_sheet("a1"), (), (NOON,)),
        RecordedSheet(SheetId(COURSE, LAB, 2, "a1"), (attempt,)),
        RecordedSheet(name_sheet("c3"), (attempt,), (NOON,)),
        RecordedSheet(SheetId("other", LAB, 1, "a1"), (attempt,)),
    ]
    for number, sheet in enumerate(reversed(put)):
        path = tmp_path / f"{number}" / "sheet.json"
        path.parent.mkdir()
        path.write_bytes(encode(sheet))
    found = reach_recording(str(tmp_path), COURSE, [LAB])
    assert [found.read(sheet) for sheet in found.sheets] == put[:3]


def test_a_file_that_is_no_sheet_is_told(tmp_path: Path) -> None:
    (tmp_path / "a1.json").write_text("{}")
    with pytest.raises(TaskError, match=r"a1\.json is no sheet of a record"):
        reach_recording(str(tmp_path), COURSE, [LAB])


def test_a_record_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(TaskError):
        reach_recording(name_record(tmp_path / "no.sqlite"), COURSE, [LAB])
