"""One hand-in read from its file, with nothing taken on trust."""

from __future__ import annotations

import os
import time
from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.support.soap import make_hand_in, write_hand_in
from workbook.errors import HandInError
from workbook.marking.document import read_hand_in
from workbook.marking.entry import MAX_SIZE, FolderEntry
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.solver.source import CourseSource
    from workbook.wire.handin import HandIn


@pytest.fixture(scope="module")
def hand_in(source: CourseSource) -> HandIn:
    return make_hand_in(source, "a1", {"dish": Typed("45.05 g")})


@pytest.fixture
def place(tmp_path: Path, hand_in: HandIn) -> Path:
    return write_hand_in(hand_in, tmp_path / "a1.handin.json")


def explain(path: Path) -> str:
    """Return why a file is no hand-in."""
    with pytest.raises(HandInError) as caught:
        read_hand_in(FolderEntry(path.name, path))
    assert caught.value.file == path.name
    assert caught.value.reason.endswith(".")
    return caught.value.reason


def test_what_was_written_is_read(place: Path, hand_in: HandIn) -> None:
    assert read_hand_in(FolderEntry(place.name, place)) == hand_in


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"", "it is empty."),
        (b" \n", "it is empty."),
        (b"not json", "it is not JSON."),
        (b"\xff\xfe\x00", "it is not JSON."),
        (b"PK\x03\x04", "it is not JSON."),
        (b"<html></html>", "it is not JSON."),
        (b"[1, 2]", "it is JSON, but no hand-in"),
        (b'{"version": 1}', "it is JSON, but no hand-in"),
        (b'{"version": "1"}', "it is JSON, but no hand-in"),
        (b'{"version": 2}', "it has version 2; version 1 is read here."),
        (b'{"a":' + b"[" * 100_000 + b"]" * 100_000 + b"}", "it is not JSON."),
    ],
)
def test_what_is_no_hand_in_is_told(
    tmp_path: Path, content: bytes, reason: str
) -> None:
    (tmp_path / "a1.handin.json").write_bytes(content)
    assert explain(tmp_path / "a1.handin.json").startswith(reason)


def test_a_file_that_stops_in_the_middle_is_told_from_a_foreign_one(
    place: Path,
) -> None:
    whole = place.read_bytes()
    for length in (10, len(whole) // 2, len(whole) - 3):
        place.write_bytes(whole[:length])
        assert explain(place).startswith("it is cut short")


def test_control_codes_in_a_file_do_not_reach_the_sentence(place: Path) -> None:
    place.write_bytes(place.read_bytes().replace(b'"seal"', b'"\\u001b[2J"'))
    assert "\x1b" not in explain(place)


def test_a_time_without_a_zone_is_refused(place: Path, hand_in: HandIn) -> None:
    naive = msgspec.structs.replace(hand_in, at=hand_in.at.replace(tzinfo=None))
    assert "no time zone" in explain(write_hand_in(naive, place))


def test_a_file_of_100_megabytes_costs_no_time_and_is_not_read(
    tmp_path: Path,
) -> None:
    path = tmp_path / "a1.handin.json"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    start = time.perf_counter()
    reason = explain(path)
    assert time.perf_counter() - start < 0.1
    assert f"100000000 bytes, and a hand-in at most {MAX_SIZE}" in reason


def test_a_link_is_not_opened(tmp_path: Path, place: Path) -> None:
    link = tmp_path / "b2.handin.json"
    link.symlink_to(place)
    assert "a link or no regular file" in explain(link)


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "a1.handin.json"
    os.mkfifo(path)
    assert "a link or no regular file" in explain(path)


def test_a_folder_of_that_name_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a1.handin.json").mkdir()
    assert "a link or no regular file" in explain(tmp_path / "a1.handin.json")


def test_a_file_that_has_gone_is_told(tmp_path: Path) -> None:
    assert explain(tmp_path / "a1.handin.json").startswith("it can't be read")


def test_a_text_that_is_not_utf_8_is_refused(place: Path) -> None:
    place.write_bytes(place.read_bytes().replace(b"45.05 g", b"45.05 \xff"))
    assert explain(place) == "it is not JSON."


@pytest.mark.parametrize("year", ["0001", "9999"])
def test_a_time_at_the_end_of_time_is_refused(place: Path, year: str) -> None:
    place.write_bytes(place.read_bytes().replace(b"2026-", f"{year}-".encode()))
    assert "of no year in which a course is held" in explain(place)
