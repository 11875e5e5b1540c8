"""The record of a marking."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, STUDENTS, make_hand_in
from workbook.errors import AuthorError
from workbook.marking.gather import Accepted
from workbook.marking.mark import mark_all
from workbook.marking.record import RECORD_FILE, open_record, read_record, write_record

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.solver.source import CourseSource
    from workbook.wire.answer import Answer


def test_a_record_gives_back_every_mark(
    tmp_path: Path, source: CourseSource, answers: dict[str, Answer]
) -> None:
    accepted = [
        Accepted(student, make_hand_in(source, student, answers), "")
        for student in STUDENTS
    ]
    marks = tuple(mark_all(source, accepted))
    written = write_record(tmp_path / RECORD_FILE, iter(marks))
    assert read_record(tmp_path) == tuple(written.walk()) == marks
    opened = open_record(tmp_path)
    for record in (written, opened):
        assert list(record) == [(LAB, student) for student in STUDENTS]
        assert [record[key] for key in reversed(list(record))] == list(marks[::-1])
    assert opened.get((LAB, "zz")) is None


def test_a_folder_without_a_record_is_told(tmp_path: Path) -> None:
    with pytest.raises(AuthorError, match=r"record\.jsonl: the record can't be read"):
        open_record(tmp_path)


def test_a_damaged_line_is_told_with_its_number(tmp_path: Path) -> None:
    (tmp_path / RECORD_FILE).write_bytes(b'{"student": 1}\n')
    with pytest.raises(AuthorError, match=r"record\.jsonl:1: this is no line"):
        read_record(tmp_path)
