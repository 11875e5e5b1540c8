"""What may be a hand-in, in a folder or in a ZIP."""

from __future__ import annotations

import os
import stat
from datetime import UTC, datetime
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import pytest

from workbook.errors import HandInError, TaskError
from workbook.marking.entry import MAX_SIZE, FolderEntry, list_entries

if TYPE_CHECKING:
    from pathlib import Path


def pack(path: Path, **files: bytes) -> Path:
    """Write a ZIP; two underscores stand for a slash, one for a point."""
    with ZipFile(path, "w", ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name.replace("__", "/").replace("_", "."), content)
    return path


def refuse(path: Path, info: ZipInfo, content: bytes = b"{}") -> str:
    """Return why the one file of a ZIP is not read."""
    with ZipFile(path, "w", ZIP_DEFLATED) as archive:
        archive.writestr(info, content, ZIP_DEFLATED)
    (entry,) = list_entries(path)
    with pytest.raises(HandInError) as caught:
        entry.read()
    return caught.value.reason


@pytest.mark.parametrize(
    "name", ["a1.handin.json", "deep/er/a1-2.handin.json", "a1.handin (1).json"]
)
def test_a_file_is_found_at_any_depth_and_as_a_browser_renames_it(
    tmp_path: Path, name: str
) -> None:
    path = tmp_path / "in" / name
    path.parent.mkdir(parents=True)
    path.write_bytes(b"{}")
    with ZipFile(tmp_path / "in.zip", "w") as archive:
        archive.write(path, name)
    for place in (tmp_path / "in", tmp_path / "in.zip"):
        (entry,) = list_entries(place)
        assert (entry.name, entry.read()) == (name, b"{}")


@pytest.mark.parametrize("name", ["sheet.json", "a1.handin.txt", "notes.ipynb"])
def test_other_files_are_passed_over(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("{}")
    assert list_entries(tmp_path) == []


def test_a_zip_inside_is_told_of_and_not_opened(tmp_path: Path) -> None:
    pack(tmp_path / "a1.zip", a1_handin_json=b"{}")
    (entry,) = list_entries(tmp_path)
    with pytest.raises(HandInError, match="a ZIP inside, and was not opened"):
        entry.read()
    assert entry.written(UTC) is None


def test_what_is_no_zip_is_told(tmp_path: Path) -> None:
    (tmp_path / "in.zip").write_bytes(b"PK\x03\x04 and no more")
    with pytest.raises(TaskError, match="no folder and no ZIP that can be read"):
        list_entries(tmp_path / "in.zip")


def test_a_zip_swells_no_further_than_a_hand_in_may(tmp_path: Path) -> None:
    swollen = ZipInfo("a1.handin.json")
    reason = refuse(tmp_path / "in.zip", swollen, b" " * 50 * MAX_SIZE)
    assert reason.startswith(f"it has {50 * MAX_SIZE} bytes")


def test_a_zip_that_lies_about_a_size_is_read_no_further(tmp_path: Path) -> None:
    path = pack(tmp_path / "in.zip", a1_handin_json=b" " * 5 * MAX_SIZE)
    size, lie = (n.to_bytes(4, "little") for n in (5 * MAX_SIZE, 2))
    path.write_bytes(path.read_bytes().replace(size, lie))
    (entry,) = list_entries(path)
    # The library stops at the size that is told, or finds that the sum is wrong.
    with pytest.raises(HandInError, match=r"it can't be unpacked|swells"):
        entry.read()


@pytest.mark.parametrize(
    "name",
    ["../a1.handin.json", "/etc/a1.handin.json", "x/../../a1.handin.json"],
)
def test_a_name_that_leads_out_of_a_zip_is_not_read(tmp_path: Path, name: str) -> None:
    assert refuse(tmp_path / "in.zip", ZipInfo(name)) == (
        "its name leads out of the ZIP, and it is not read."
    )


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR])
def test_a_link_in_a_zip_is_not_followed(tmp_path: Path, kind: int) -> None:
    info = ZipInfo("a1.handin.json")
    info.external_attr = (kind | 0o777) << 16
    reason = refuse(tmp_path / "in.zip", info, b"/etc/passwd")
    assert reason == "it is a link or no regular file, and is not opened."


def test_a_locked_file_of_a_zip_is_told(tmp_path: Path) -> None:
    path = pack(tmp_path / "in.zip", a1_handin_json=b"{}")
    # The flags of the entry stand 8 bytes into the central directory.
    content = bytearray(path.read_bytes())
    content[content.index(b"PK\x01\x02") + 8] |= 1
    path.write_bytes(content)
    (entry,) = list_entries(path)
    with pytest.raises(HandInError, match="locked by a password"):
        entry.read()


def test_a_damaged_file_of_a_zip_is_told(tmp_path: Path) -> None:
    path = tmp_path / "in.zip"
    with ZipFile(path, "w") as archive:
        archive.writestr("a1.handin.json", b"{0123456789}")
    path.write_bytes(path.read_bytes().replace(b"456", b"654"))
    (entry,) = list_entries(path)
    with pytest.raises(HandInError, match="it can't be unpacked: Bad CRC-32"):
        entry.read()


def test_a_file_says_when_it_was_written(tmp_path: Path) -> None:
    path = tmp_path / "a1.handin.json"
    path.write_bytes(b"{}")
    at = datetime(2026, 10, 12, 17, 0, tzinfo=UTC)
    os.utime(path, (at.timestamp(), at.timestamp()))
    assert FolderEntry(path.name, path).written(UTC) == at
    with ZipFile(tmp_path / "in.zip", "w") as archive:
        archive.writestr(ZipInfo(path.name, (2026, 10, 12, 17, 0, 0)), b"{}")
        archive.writestr(ZipInfo(path.name + "x.json", (2026, 1, 1, 0, 0, 0)), b"{}")
    assert next(each.written(UTC) for each in list_entries(tmp_path / "in.zip")) == at


def test_a_file_that_is_gone_says_nothing(tmp_path: Path) -> None:
    assert FolderEntry("x", tmp_path / "x").written(UTC) is None
