"""
A course from roster to marks: issuing, marking, growth and memory, each with a ratio.

Run as ``python -m tests.benchmarks.bench_course [ISSUED] [MARKED] [GROWTH ...]``;
pytest does not collect it. Issuing is held against copying the same bytes, and marking
against parsing the same files; the hand-ins answer 20 steps. Growth is one process of
its own for each size, so that its memory is that of nothing else.
"""

from __future__ import annotations

import resource
import shutil
import subprocess
import sys
import tempfile
from itertools import islice
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

import msgspec

from tests.support.soap import LAB, LAB_FOLDER, answer_rightly, make_hand_in
from workbook.issuing.issue import issue_sheets
from workbook.labfile.enrolment import read_students
from workbook.marking.acceptance import expect
from workbook.marking.crew import Crew, mark_by_crew
from workbook.marking.document import read_hand_in
from workbook.marking.entry import list_entries
from workbook.marking.gather import gather
from workbook.marking.record import encode_record
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable

#: Steps that each hand-in answers [-].
STEPS = 20

#: Sheets issued, hand-ins marked, and the sizes of a growing class, unless said [-].
ISSUED, MARKED, GROWTH = 200, 1000, (100, 1000)


def write_course(folder: Path, size: int) -> Path:
    """Write a course of some students, and return its file."""
    path = folder / "course.toml"
    lab = LAB_FOLDER.as_posix()
    head = '[course]\nname = "salt-1"\ntitle = "Salt"\nroster = "roster.csv"\n'
    path.write_text(f'{head}labs = ["{lab}"]\n', encoding="utf-8")
    rows = "".join(f"s{number},\n" for number in range(size))
    (folder / "roster.csv").write_text(f"student,name\n{rows}")
    (folder / "course.key").write_text("5a" * 32 + "\n")
    return path


def time_of(work: Callable[[], object]) -> float:
    """Return how long something takes [s]."""
    start = perf_counter()
    work()
    return perf_counter() - start


def hand_in(source: CourseSource, folder: Path, size: int) -> None:
    """Write the right answers of a class to twenty steps each."""
    folder.mkdir()
    students = [f"s{number}" for number in range(size)]
    for student, case in zip(students, source.cases(LAB, students), strict=True):
        # From the end: readings, chains, algebra and numbers, the longest to judge.
        answers = dict(islice(reversed(answer_rightly(case).items()), STEPS))
        made = make_hand_in(source, student, answers)
        path = folder / f"{student}.handin.json"
        path.write_bytes(msgspec.json.encode(made))


def bench_issuing(size: int) -> None:
    """Print how long issuing takes beside copying what was issued."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = CourseSource(write_course(folder, size))
        roster = read_students(source.course.roster)
        made, copied = folder / "made", folder / "copied"
        issuing = time_of(lambda: list(issue_sheets(made, source, roster)))
        copying = time_of(lambda: shutil.copytree(made, copied))
        sys.stdout.write(
            f"issuing {size:,} sheets: {issuing:.1f} s, {size / issuing:,.0f} a "
            f"second; copying the same bytes: {copying:.2f} s; ratio "
            f"{issuing / copying:.0f}\n"
        )


def bench_marking(size: int) -> None:
    """Print how long marking takes beside parsing, on one core and on all."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = CourseSource(write_course(folder, size))
        hand_in(source, folder / "in", size)
        entries = list_entries(folder / "in")
        parsing = time_of(lambda: [read_hand_in(entry) for entry in entries])
        expected = expect(source, read_students(source.course.roster))
        out = sys.stdout
        out.write(f"parsing {size:,} hand-ins of {STEPS} steps: {parsing:.2f} s\n")
        gathered = gather(entries, expected).accepted
        marks = []
        for crew, what in ((Crew(1), "one core"), (Crew(), "all cores")):
            start = perf_counter()
            marks.append(encode_record(mark_by_crew(source, gathered, (), crew)))
            taken = perf_counter() - start
            out.write(
                f"marking them on {what}: {taken:.1f} s, {size / taken:,.0f} a second, "
                f"{STEPS * size / taken:,.0f} steps a second; ratio to parsing "
                f"{taken / parsing:.0f}\n"
            )
        out.write(f"the marks are the same: {marks[0] == marks[1]}\n")


def grow(size: int) -> None:
    """Print the time and the memory of one class, in this process."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = CourseSource(write_course(folder, size))
        hand_in(source, folder / "in", size)
        roster = read_students(source.course.roster)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        start = perf_counter()
        gathered = gather(list_entries(folder / "in"), expect(source, roster))
        marks = list(mark_by_crew(source, gathered.accepted, (), Crew(1)))
        taken = perf_counter() - start
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        sys.stdout.write(
            f"{len(marks):,} students: {taken:.1f} s, {1000 * taken / size:.1f} ms "
            f"each; memory {most / 1024:,.0f} MiB, of which {before / 1024:,.0f} "
            f"before\n"
        )


def main() -> None:
    """Print all figures, or those of one size of a growing class."""
    numbers = [int(each) for each in sys.argv[1:] if each.isdigit()]
    if "--grow" in sys.argv:
        grow(numbers[0])
        return
    issued, marked, *growth = numbers or [ISSUED, MARKED, *GROWTH]
    bench_issuing(issued)
    bench_marking(marked)
    for size in growth:
        command = [sys.executable, "-m", "tests.benchmarks.bench_course", "--grow"]
        subprocess.run([*command, str(size)], check=True)


if __name__ == "__main__":
    main()
