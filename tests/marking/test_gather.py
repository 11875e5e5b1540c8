"""A folder of hand-ins to those that are marked, and a sentence for each other."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from tests.support.soap import (
    NOON,
    make_attempts,
    make_hand_in,
    name_sheet,
    write_hand_in,
)
from workbook.client.direct import DirectChecker
from workbook.client.handin import build, save, seal
from workbook.marking.entry import list_entries
from workbook.marking.gather import Gathered, gather
from workbook.solver.desk import Desk
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.marking.acceptance import Expected
    from workbook.solver.source import CourseSource


def put(source: CourseSource, place: Path, student: str, hours: int = 3) -> Path:
    """Write a student's hand-in of some hours after noon."""
    at = NOON + timedelta(hours=hours)
    hand_in = make_hand_in(source, student, {"dish": Typed("45.05 g")}, at)
    return write_hand_in(hand_in, place)


def collect(folder: Path, expected: Expected) -> Gathered:
    return gather(list_entries(folder), expected)


def test_each_good_file_is_accepted_under_its_path(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    put(source, tmp_path / "b2" / "b2.handin.json", "b2")
    put(source, tmp_path / "a1.handin.json", "a1")
    found = collect(tmp_path, expected)
    assert [each.name for each in found.accepted] == [
        "a1.handin.json",
        "b2/b2.handin.json",
    ]


def test_what_the_student_side_writes_is_accepted(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    attempts = make_attempts([("dish", Typed("45.05 g"))])
    hand_in = build(name_sheet("a1"), attempts, NOON)
    checker = DirectChecker(Desk(source).answer)
    receipt = save(seal(hand_in, checker), tmp_path)
    (found,) = collect(tmp_path, expected).take()
    assert (found.name, found.remark) == (receipt.path.name, "")


def test_one_bad_file_costs_no_other(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    (tmp_path / "0.handin.json").write_text("")
    put(source, tmp_path / "a1.handin.json", "a1")
    (tmp_path / "z.handin.json").write_text("{")
    found = collect(tmp_path, expected)
    assert [each.name for each in found.accepted] == ["a1.handin.json"]
    assert [str(each) for each in found.refused] == [
        "0.handin.json: it is empty.",
        (
            "z.handin.json: it is cut short: it starts as a hand-in and stops in the "
            "middle."
        ),
    ]


def test_the_newest_of_several_stands(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    put(source, tmp_path / "a1.handin.json", "a1", hours=3)
    put(source, tmp_path / "a1-2.handin.json", "a1", hours=5)
    put(source, tmp_path / "a1-3.handin.json", "a1", hours=4)
    found = collect(tmp_path, expected)
    assert [each.name for each in found.accepted] == ["a1-2.handin.json"]
    assert [each.file for each in found.superseded] == [
        "a1-3.handin.json",
        "a1.handin.json",
    ]
    assert found.refused == []


def test_the_newest_valid_one_stands_when_the_newest_is_broken(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    put(source, tmp_path / "a1.handin.json", "a1", hours=3)
    broken = put(source, tmp_path / "a1-2.handin.json", "a1", hours=5)
    broken.write_bytes(broken.read_bytes().replace(b"45.05", b"45.06"))
    found = collect(tmp_path, expected)
    assert [each.name for each in found.accepted] == ["a1.handin.json"]
    assert [each.file for each in found.refused] == ["a1-2.handin.json"]


def test_links_to_files_and_folders_are_told_of_and_not_followed(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    put(source, tmp_path / "outside" / "a1.handin.json", "a1")
    folder = tmp_path / "handins"
    folder.mkdir()
    (folder / "a1.handin.json").symlink_to(tmp_path / "outside" / "a1.handin.json")
    (folder / "b2").symlink_to(tmp_path / "outside")
    found = collect(folder, expected)
    assert found.accepted == []
    assert [each.file for each in found.refused] == ["a1.handin.json", "b2"]


def test_a_name_with_control_codes_is_told_harmlessly(
    tmp_path: Path, expected: Expected
) -> None:
    (tmp_path / "a\x1b[2J.handin.json").write_text("")
    (problem,) = collect(tmp_path, expected).refused
    assert problem.file == r"a\x1b[2J.handin.json"


def test_what_was_changed_before_it_is_marked_is_told_and_not_marked(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    kept = put(source, tmp_path / "a1.handin.json", "a1")
    changed = put(source, tmp_path / "b.handin.json", "b2")
    gone = put(source, tmp_path / "c.handin.json", "c3")
    found = collect(tmp_path, expected)
    # A whole and sealed one, but another student's; and none at all.
    changed.write_bytes(kept.read_bytes())
    gone.unlink()
    assert [each.name for each in found.take()] == [kept.name]
    assert [each.file for each in found.refused] == [changed.name, gone.name]
    for problem in found.refused:
        assert "was changed while the class was marked" in problem.reason


def test_a_later_hand_in_in_its_place_is_not_marked_as_the_earlier(
    tmp_path: Path, source: CourseSource, expected: Expected
) -> None:
    put(source, tmp_path / "a1.handin.json", "a1", hours=3)
    found = collect(tmp_path, expected)
    put(source, tmp_path / "a1.handin.json", "a1", hours=4)
    assert list(found.take()) == []
    assert [each.file for each in found.refused] == ["a1.handin.json"]


def test_what_is_refused_holds_nothing_that_was_read(
    tmp_path: Path, expected: Expected
) -> None:
    (tmp_path / "b2.handin.json").write_text("{")
    (refused,) = collect(tmp_path, expected).refused
    # A trace holds every value of the functions that it went through.
    assert (refused.__traceback__, refused.__context__) == (None, None)
