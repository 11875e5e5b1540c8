"""The hand-ins of a class that never was."""

from __future__ import annotations

import random
from collections import Counter

import pytest

from tests.support.soap import LAB, make_course
from workbook.errors import HandInError
from workbook.labfile.roster import Student
from workbook.marking.acceptance import expect
from workbook.marking.entry import StrangeEntry
from workbook.marking.gather import gather
from workbook.rehearsal.pile import Fate, draw_fate, pile_up
from workbook.solver.source import CourseSource

STUDENTS = [f"s{number}" for number in range(60)]


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    course = make_course(tmp_path_factory.mktemp("course"))
    rows = "".join(f"{student},\n" for student in STUDENTS)
    (course.parent / "roster.csv").write_text(f"student,name\n{rows}")
    return CourseSource(course)


def test_the_same_seed_gives_the_same_pile_and_another_another(
    source: CourseSource,
) -> None:
    piles = [dict(pile_up(source, LAB, STUDENTS[:5], seed)) for seed in (1, 1, 2)]
    assert piles[0] == piles[1] != piles[2]


def test_a_class_that_grows_changes_nobody_s_answers(source: CourseSource) -> None:
    few, more = (dict(pile_up(source, LAB, STUDENTS[:n], 1)) for n in (3, 6))
    assert few.items() <= more.items()


def test_most_hand_ins_are_plain_and_every_fate_comes(source: CourseSource) -> None:
    del source
    chance = random.Random(1)  # noqa: S311  no secret
    drawn = Counter(draw_fate(chance) for _ in range(2000))
    assert set(drawn) == set(Fate)
    assert drawn[Fate.PLAIN] > 1700


class Held:
    """A file that is held in memory."""

    def __init__(self, name: str, content: bytes) -> None:
        self.name = name
        self._content = content

    def read(self) -> bytes:
        """Return it."""
        return self._content

    written = StrangeEntry("", "").written


def test_what_can_be_marked_is_marked_and_the_rest_is_told(
    source: CourseSource,
) -> None:
    files = [Held(*each) for each in pile_up(source, LAB, STUDENTS, 1)]
    roster = [Student(student, "") for student in STUDENTS]
    found = gather(files, expect(source, roster))
    told = {error.reason.split(":")[0].split(" '")[0] for error in found.refused}
    assert told <= {"it is cut short", "it belongs to the course"}
    told_of = len(found.accepted) + len(found.refused) + len(found.superseded)
    assert told_of == len(files)
    assert len(found.accepted) > 50
    assert all(isinstance(error, HandInError) for error in found.refused)
