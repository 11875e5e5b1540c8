"""The bank of comments."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.desk.bank import BANK_FILE, put_in, read_bank
from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path


def test_a_bank_that_is_not_there_has_the_first_comments(tmp_path: Path) -> None:
    assert len(read_bank(tmp_path / BANK_FILE)) == 4


def test_what_is_put_in_comes_back_once_on_one_line(tmp_path: Path) -> None:
    path = tmp_path / BANK_FILE
    for text in ("Say\nby how much.", "Say by how much."):
        put_in(path, text)
    assert read_bank(path)[4:] == ("Say by how much.",)


def test_an_empty_comment_is_refused(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="Nothing is written"):
        put_in(tmp_path / BANK_FILE, " \n")


def test_a_bank_that_is_no_text_is_told(tmp_path: Path) -> None:
    (tmp_path / BANK_FILE).write_bytes(b"\xff\xfe")
    with pytest.raises(TaskError, match="can't be read"):
        read_bank(tmp_path / BANK_FILE)


def test_a_disk_that_refuses_is_told(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="can't be written"):
        put_in(tmp_path, "A comment.")
