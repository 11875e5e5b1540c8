"""The lines of a file that grows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.client.tail import Tail

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "book"


def test_a_file_that_is_not_there_yet_has_no_lines(path: Path) -> None:
    assert list(Tail(path).read_on()) == []


def test_each_line_is_given_once_with_its_number(path: Path) -> None:
    tail = Tail(path)
    path.write_bytes(b"one\n\nthree\n")
    assert list(tail.read_on()) == [(1, b"one"), (2, b""), (3, b"three")]
    with path.open("ab") as file:
        file.write(b"four\r!\n")
    assert list(tail.read_on()) == [(4, b"four\r!")]
    assert list(tail.read_on()) == []


def test_a_last_line_without_an_end_is_given_until_it_has_one(path: Path) -> None:
    tail = Tail(path)
    path.write_bytes(b"one\ntw")
    assert list(tail.read_on()) == [(1, b"one"), (2, b"tw")]
    path.write_bytes(b"one\ntwo\n")
    assert list(tail.read_on()) == [(2, b"two")]
    assert list(tail.read_on()) == []


def test_an_older_copy_in_its_place_is_read_from_its_start(path: Path) -> None:
    tail = Tail(path)
    path.write_bytes(b"one\ntwo\n")
    assert len(list(tail.read_on())) == 2
    path.write_bytes(b"new\n")
    assert list(tail.read_on()) == [(1, b"new")]
