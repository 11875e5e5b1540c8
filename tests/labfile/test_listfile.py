"""Rows of a list, and what can be wrong with its file and head."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.errors import AuthorError
from workbook.labfile.listfile import Layout, Row, explain_length, read_rows

if TYPE_CHECKING:
    from pathlib import Path

LAYOUT = Layout("shelf list", ("bottle", "shelf"), ("room",))


def read(folder: Path, content: bytes) -> list[Row]:
    path = folder / "shelves.csv"
    path.write_bytes(content)
    return read_rows(path, LAYOUT)


def test_rows_know_their_lines(tmp_path: Path) -> None:
    rows = read(tmp_path, b"shelf,bottle\n\n3, lime \n")
    assert rows == [Row(1, ("shelf", "bottle")), Row(3, ("3", "lime"))]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "shelves.csv:1: the file is empty; the first row names 'bottle', 's"),
        (b"bottle\nlime\n", "shelves.csv:1: the column 'shelf' is missing"),
        (b"bottle,shelf,rom\n", "'rom' is no column of a shelf list. Did you mean"),
        (b"bottle;shelf\n", "the columns are parted by ';'"),
        (b"bottle,shelf\n\xff,3\n", "shelves.csv:2: the byte 0xff is not UTF-8"),
        (b'bottle,shelf\n"lime,3\n', "shelves.csv:2: the row is no CSV"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(
    tmp_path: Path, content: bytes, says: str
) -> None:
    with pytest.raises(AuthorError) as caught:
        read(tmp_path, content)
    assert says in str(caught.value)


def test_a_row_of_another_length_is_told() -> None:
    head = Row(1, ("bottle", "shelf"))
    assert explain_length(head, Row(2, ("lime", "3"))) == ""
    assert "the number of cells is 1, and 2" in explain_length(head, Row(2, ("lime",)))
