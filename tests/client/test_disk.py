"""Writing that loses nothing."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from workbook.client.disk import append_line, write_new

if TYPE_CHECKING:
    from pathlib import Path


def test_lines_are_added_one_after_the_other(tmp_path: Path) -> None:
    path = tmp_path / "book"
    for line in (b"one", b"two"):
        append_line(path, line, is_forced=True)
    assert path.read_bytes() == b"one\ntwo\n"


def test_a_line_that_was_cut_short_does_not_swallow_the_next(tmp_path: Path) -> None:
    path = tmp_path / "book"
    path.write_bytes(b"one\ntw")
    append_line(path, b"three", is_forced=False)
    assert path.read_bytes() == b"one\ntw\nthree\n"


def test_a_forced_line_is_synced_and_a_draft_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[int] = []
    monkeypatch.setattr(os, "fsync", synced.append)
    append_line(tmp_path / "book", b"draft", is_forced=False)
    assert synced == []
    append_line(tmp_path / "book", b"attempt", is_forced=True)
    assert len(synced) == 1


def test_a_new_file_takes_the_first_free_name_and_leaves_the_others(
    tmp_path: Path,
) -> None:
    (tmp_path / "a").write_text("earlier")
    path = write_new(tmp_path, ("a", "b", "c"), b"later")
    assert path == tmp_path / "b"
    assert path.read_bytes() == b"later"
    assert (tmp_path / "a").read_text() == "earlier"


def test_a_full_disk_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(handle: int) -> None:
        raise OSError(28, os.strerror(28), handle)

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OSError, match="No space left"):
        write_new(tmp_path, ("a",), b"content")
    assert list(tmp_path.iterdir()) == []
