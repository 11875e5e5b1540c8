"""The file of permits: written by us, read back with lines."""

from __future__ import annotations

import tomllib
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from workbook.errors import AuthorError
from workbook.labfile import permit
from workbook.labfile.permit import (
    PERMIT_FILE,
    Permit,
    PermitReader,
    encode_permits,
    read_permits,
)
from workbook.store import write_file

if TYPE_CHECKING:
    from pathlib import Path

AT = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
PERMITS = (
    Permit(student="a1", lab="soap", at=AT, seal="5ea1"),
    Permit(student='b"2\\', lab="soap", at=AT, seal="0ff"),
)


def test_permits_are_read_as_they_were_written(tmp_path: Path) -> None:
    path = tmp_path / PERMIT_FILE
    path.write_bytes(encode_permits(PERMITS))
    assert read_permits(path) == PERMITS


def test_the_file_is_toml_that_a_person_can_read() -> None:
    data = tomllib.loads(encode_permits(PERMITS).decode())
    assert data["permit"][0] == {
        "student": "a1",
        "lab": "soap",
        "at": AT,
        "seal": "5ea1",
    }


def test_a_course_without_the_file_has_no_permits(tmp_path: Path) -> None:
    assert read_permits(tmp_path / PERMIT_FILE) == ()


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [("seal ", "seel ", 9), ("student", "pupil", 6), ('"5ea1"', "7", 9)],
)
def test_a_mistake_is_told_with_its_line(
    tmp_path: Path, old: str, new: str, line: int
) -> None:
    path = tmp_path / PERMIT_FILE
    text = encode_permits(PERMITS[:1]).decode()
    head, table, rest = text.partition("[[permit]]")
    path.write_text(head + table + rest.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(AuthorError) as caught:
        read_permits(path)
    assert any(f"{path}:{line}: " in each for each in caught.value.findings)


def test_a_file_that_has_not_changed_is_not_read_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / PERMIT_FILE
    reader, read = PermitReader(path), []

    def note(place: Path) -> tuple[Permit, ...]:
        read.append(place)
        return read_permits(place)

    monkeypatch.setattr(permit, "read_permits", note)
    assert reader.read() == ()
    write_file(path, encode_permits(PERMITS))
    assert [reader.read() for _ in range(3)] == [PERMITS] * 3
    write_file(path, encode_permits(PERMITS[:1]), may_replace=True)
    assert reader.read() == PERMITS[:1]
    path.unlink()
    assert reader.read() == ()
    assert len(read) == 3
