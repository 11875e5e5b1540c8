"""Keeping a lab report."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from workbook.client.report import save_report
from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.sheet import Sheet


def test_a_later_report_leaves_the_earlier_one(sheet: Sheet, tmp_path: Path) -> None:
    first = save_report("<p>±</p>", sheet.id, tmp_path)
    second = save_report("later", sheet.id, tmp_path)
    assert (first.name, second.name) == ("s07.report.html", "s07-2.report.html")
    assert first.read_text(encoding="utf-8") == "<p>±</p>"


def test_a_disk_without_room_is_told_and_nothing_is_left(
    sheet: Sheet, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(handle: int) -> None:
        raise OSError(28, os.strerror(28), handle)

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(TaskError, match=r"report can't be written .* No space left"):
        save_report("report", sheet.id, tmp_path)
    assert list(tmp_path.iterdir()) == []
