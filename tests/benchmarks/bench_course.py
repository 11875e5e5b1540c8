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
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from time import perf_counter, process_time
from typing import TYPE_CHECKING

import msgspec

from tests.support.soap import LAB, LAB_FOLDER, answer_rightly, make_hand_in
from workbook.issuing.crew import issue_by_crew
from workbook.issuing.issue import issue_sheets
from workbook.labfile.enrolment import read_students
from workbook.marking.acceptance import expect
from workbook.marking.crew import mark_by_crew
from workbook.marking.document import read_hand_in
from workbook.marking.entry import list_entries
from workbook.marking.gather import gather
from workbook.solver.crew import Crew
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.marking.gather import Gathered
    from workbook.marking.result import SheetMark

#: Steps that each hand-in answers [-].
STEPS = 20

#: Students whose hand-ins are made at once [-].
_AT_ONCE = 1000

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


@dataclass(frozen=True)
class Taken:
    """How long something took."""

    wall_s: float
    #: Of this process; another that is busy beside it adds nothing.
    processor_s: float

    def say(self) -> str:
        """Return it in words."""
        return f"{self.processor_s:.2f} s of processor, {self.wall_s:.1f} s by clock"


def time_of(work: Callable[[], object]) -> Taken:
    """Return how long something takes."""
    start, busy = perf_counter(), process_time()
    work()
    return Taken(perf_counter() - start, process_time() - busy)


def hand_in(source: CourseSource, folder: Path, size: int) -> None:
    """Write the right answers of a class to twenty steps each."""
    folder.mkdir()
    for start in range(0, size, _AT_ONCE):
        ids = [f"s{n}" for n in range(start, min(start + _AT_ONCE, size))]
        for student, case in zip(ids, source.cases(LAB, ids), strict=True):
            # From the end: readings, chains, algebra, numbers, the longest to judge.
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
        together = time_of(lambda: list(issue_by_crew(folder / "by", source, roster)))
        ratio = issuing.processor_s / copying.processor_s
        sys.stdout.write(
            f"issuing {size:,} sheets: {issuing.say()}\n"
            f"copying the same bytes: {copying.say()}; ratio {ratio:.0f}\n"
            f"issuing them on all cores: {together.wall_s:.1f} s by clock\n"
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
        out.write(f"parsing {size:,} hand-ins of {STEPS} steps: {parsing.say()}\n")
        found = gather(entries, expected)
        marks: list[list[SheetMark]] = []
        alone = time_of(lambda: marks.append(mark(source, found, Crew(1))))
        ratio = alone.processor_s / parsing.processor_s
        out.write(f"marking them on one core: {alone.say()}; ratio {ratio:.0f}\n")
        together = time_of(lambda: marks.append(mark(source, found, Crew())))
        out.write(f"marking them on all cores: {together.wall_s:.1f} s by clock\n")
        out.write(f"the marks are the same: {marks[0] == marks[1]}\n")


def mark(source: CourseSource, found: Gathered, crew: Crew) -> list[SheetMark]:
    """Mark what was gathered."""
    return list(mark_by_crew(source, found.take(), len(found.accepted), (), crew))


def grow(folder: Path) -> None:
    """Print the time and the memory of marking one class, in this process."""
    source = CourseSource(folder / "course.toml")
    roster = read_students(source.course.roster)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    marks: list[SheetMark] = []

    def mark_class() -> None:
        gathered = gather(list_entries(folder / "in"), expect(source, roster))
        marks.extend(mark(source, gathered, Crew(1)))

    taken = time_of(mark_class)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    each_ms = 1000 * taken.processor_s / len(marks)
    sys.stdout.write(
        f"{len(marks):,} students: {taken.say()}, {each_ms:.1f} ms each; memory "
        f"{most / 1024:,.0f} MiB, {before / 1024:,.0f} of it before\n"
    )


def bench_growth(size: int) -> None:
    """Make a class, and have it marked in a process of its own."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        hand_in(CourseSource(write_course(folder, size)), folder / "in", size)
        command = [sys.executable, "-m", "tests.benchmarks.bench_course", "--grow"]
        subprocess.run([*command, name], check=True)


def main() -> None:
    """Print all figures, or those of one class that was made."""
    if "--grow" in sys.argv:
        grow(Path(sys.argv[-1]))
        return
    numbers = [int(each) for each in sys.argv[1:]]
    issued, marked, *growth = numbers or [ISSUED, MARKED, *GROWTH]
    bench_issuing(issued)
    bench_marking(marked)
    for size in growth:
        bench_growth(size)


if __name__ == "__main__":
    main()
