"""The lines of a record."""

from __future__ import annotations

import errno
import os
from typing import TYPE_CHECKING

import pytest

from workbook.client.journal import Drafted, Headed, Journal
from workbook.errors import TaskError
from workbook.wire.answer import Typed
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path

HEAD = Headed(SheetId("autumn", "cold-cream", 1, "s07"))


def draft(text: str) -> Drafted:
    return Drafted("wax_mass", Typed(text))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "postlab.attempts.jsonl"


def test_a_line_is_read_back_as_it_was_and_known_as_own(path: Path) -> None:
    journal = Journal(path)
    journal.append(HEAD, is_forced=True)
    journal.append(draft("1,50 g ± \u2028\n"), is_forced=False)
    expected = [(HEAD, True), (draft("1,50 g ± \u2028\n"), True)]
    assert list(journal.read_on()) == expected


def test_a_line_of_another_is_known_as_such(path: Path) -> None:
    one, two = Journal(path), Journal(path)
    one.append(draft("1"), is_forced=True)
    two.append(draft("2"), is_forced=True)
    assert list(one.read_on()) == [(draft("1"), True), (draft("2"), False)]


@pytest.mark.parametrize(
    "content",
    [
        b"{",
        b'{"type":"draft","step":"a","answer":{"type":"typed","text":"\xff"}}',
        b'{"type":"draft","step":"a","answer":{"type":"typed","text":"\\ud800"}}',
        b'{"a":' * 100_000,
        b'{"type":"elsewhere"}',
        b"\0" * 4096,
    ],
    ids=["cut", "no UTF-8", "half a character", "too deep", "unknown", "zeros"],
)
def test_a_damaged_line_costs_itself_only(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    journal = Journal(path)
    journal.append(draft("1"), is_forced=True)
    assert list(journal.read_on()) == [(draft("1"), True)]
    assert journal.damaged == (1,)


def test_a_line_that_arrives_in_two_pieces_is_no_damage(path: Path) -> None:
    Journal(path).append(draft("1"), is_forced=True)
    whole = path.read_bytes()
    path.write_bytes(whole[:20])
    journal = Journal(path)
    assert list(journal.read_on()) == []
    assert list(journal.damaged) == [1]
    path.write_bytes(whole)
    assert list(journal.read_on()) == [(draft("1"), False)]
    assert list(journal.damaged) == []


def test_text_that_is_no_text_is_told(path: Path) -> None:
    with pytest.raises(TaskError, match="half a character"):
        Journal(path).append(draft("\ud800"), is_forced=True)


def test_a_disk_that_fails_late_does_not_make_a_stranger_of_the_line(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), handle)

    journal = Journal(path)
    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fail)
        with pytest.raises(TaskError, match="can't be written: No space left"):
            journal.append(draft("1"), is_forced=True)
    assert list(journal.read_on()) == [(draft("1"), True)]
