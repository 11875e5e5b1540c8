"""Writing a file whole or not at all."""

from __future__ import annotations

import os
from itertools import count
from pathlib import Path
from typing import BinaryIO

import pytest

from workbook.errors import TaskError
from workbook.store.file import write_file, write_new


def test_a_file_is_written_with_what_was_given(tmp_path: Path) -> None:
    write_file(tmp_path / "marks.csv", b"student\n")
    assert (tmp_path / "marks.csv").read_bytes() == b"student\n"


def test_a_file_that_exists_is_left_as_it_was(tmp_path: Path) -> None:
    place = tmp_path / "marks.csv"
    place.write_bytes(b"old")
    with pytest.raises(TaskError, match=r"marks\.csv is there already"):
        write_file(place, b"new")
    assert place.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [place]


def test_a_file_is_replaced_when_that_was_asked(tmp_path: Path) -> None:
    place = tmp_path / "marks.csv"
    place.write_bytes(b"old")
    write_file(place, b"new", may_replace=True)
    assert place.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [place]


def test_a_file_in_a_folder_that_is_missing_is_told(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="can't be written"):
        write_file(tmp_path / "gone" / "marks.csv", b"new")


def test_a_new_file_takes_the_first_free_name_and_leaves_the_others(
    tmp_path: Path,
) -> None:
    (tmp_path / "a").write_text("earlier")
    path = write_new(tmp_path, ("a", "b", "c"), b"later")
    assert path == tmp_path / "b"
    assert path.read_bytes() == b"later"
    assert (tmp_path / "a").read_text() == "earlier"


def test_a_file_too_large_to_be_held_is_written_as_it_comes(tmp_path: Path) -> None:
    def write(file: BinaryIO) -> None:
        file.writelines(bytes([letter]) for letter in b"abc")

    write_file(tmp_path / "year.zip", write)
    assert (tmp_path / "year.zip").read_bytes() == b"abc"


def test_what_breaks_off_leaves_nothing_behind(tmp_path: Path) -> None:
    def write(file: BinaryIO) -> None:
        file.write(b"half")
        msg = "No more."
        raise TaskError(msg)

    with pytest.raises(TaskError, match="No more"):
        write_file(tmp_path / "year.zip", write)
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(handle: int) -> None:
        raise OSError(28, os.strerror(28), handle)

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OSError, match="No space left"):
        write_new(tmp_path, ("a",), b"content")
    assert list(tmp_path.iterdir()) == []


@pytest.fixture
def no_links(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the disk refuse links, as FAT and some network disks do."""

    def refuse(path: Path, target: Path) -> None:
        raise OSError(95, os.strerror(95), path, None, target)

    monkeypatch.setattr(Path, "hardlink_to", refuse)


@pytest.mark.usefixtures("no_links")
def test_a_disk_without_links_keeps_earlier_files_too(tmp_path: Path) -> None:
    for content in (b"first", b"second"):
        write_new(tmp_path, map(str, count(1)), content)
    assert (tmp_path / "1").read_bytes() == b"first"
    assert (tmp_path / "2").read_bytes() == b"second"
    assert len(list(tmp_path.iterdir())) == 2


def test_a_file_for_which_no_name_is_free_is_not_written(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("earlier")
    with pytest.raises(FileExistsError):
        write_new(tmp_path, ("a",), b"later")
    assert [each.read_text() for each in tmp_path.iterdir()] == ["earlier"]


def test_a_new_file_can_be_read_by_whom_the_system_lets(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.touch()
    path = write_new(tmp_path, ("a",), b"content")
    assert path.stat().st_mode == plain.stat().st_mode
