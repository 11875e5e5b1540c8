"""
A course from roster to marks: issuing, marking, growth and memory, each with a ratio.

Run as ``python -m tests.benchmarks.bench_course [ISSUED] [MARKED] [GROWTH ...]``;
pytest does not collect it. Issuing is held against copying the same bytes, and marking
against parsing the same files; the hand-ins answer 20 steps. Growth is a process of its
own for each size and task, so that its memory is that of nothing else; each student of
it is answered for by themselves, from their own values.
"""

from __future__ import annotations

import resource
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from itertools import islice
from multiprocessing import active_children
from pathlib import Path
from time import perf_counter, process_time
from typing import TYPE_CHECKING, TypeVar

import msgspec

from tests.support.soap import LAB, LAB_FOLDER, answer_rightly, make_hand_in
from workbook.issuing.answerbook import print_book
from workbook.issuing.crew import issue_by_crew
from workbook.issuing.issue import issue_sheets
from workbook.labfile.enrolment import read_students
from workbook.marking.acceptance import expect
from workbook.marking.crew import mark_by_crew
from workbook.marking.document import read_hand_in
from workbook.marking.entry import list_entries
from workbook.marking.gather import gather
from workbook.marking.record import RECORD_FILE, write_record
from workbook.report.crew import hand_back_by_crew
from workbook.report.csvfile import write_csv
from workbook.report.handback import write_class
from workbook.report.table import tabulate_marks, tabulate_steps
from workbook.solver.crew import Crew
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from workbook.labfile.roster import Student
    from workbook.marking.gather import Gathered
    from workbook.marking.result import SheetMark

T = TypeVar("T")

#: Steps that each hand-in answers [-].
STEPS = 20

#: Students whose hand-ins are made at once [-].
_AT_ONCE = 1000

#: This process, and those that it has waited for.
_ALL = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)

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


def grow(folder: Path, task: str) -> None:
    """Print what each part of a task costs for one class, in this process."""
    source = CourseSource(folder / "course.toml")
    roster = read_students(source.course.roster)
    meter = Meter(len(roster))
    if task == "issue":
        issue(folder / "issued", source, roster, meter)
    else:
        mark_whole(folder, source, roster, meter)


def issue(
    folder: Path, source: CourseSource, roster: Sequence[Student], meter: Meter
) -> None:
    """Issue to a class, the answer book with it."""
    folder.mkdir()
    pages = meter.watch(issue_by_crew(folder, source, roster))
    with (folder / "answers.html").open("wb") as book:
        book.writelines(print_book(source.course.title, pages))
    meter.tell("issuing")


def mark_whole(
    folder: Path, source: CourseSource, roster: Sequence[Student], meter: Meter
) -> None:
    """Mark a class, and make all that goes back, as the command does."""
    out = folder / "marks"
    out.mkdir()
    found = gather(list_entries(folder / "in"), expect(source, roster))
    meter.tell("gathering")
    number = len(found.accepted)
    marking = meter.watch(mark_by_crew(source, found.take(), number))
    marks = write_record(out / RECORD_FILE, marking)
    meter.tell("marking")
    totals = {LAB: next(iter(marks.walk())).out_of}
    write_csv(
        out / "marks.csv", lambda some: tabulate_marks(some, totals, marks), roster
    )
    write_csv(out / "steps.csv", tabulate_steps, marks.walk())
    meter.tell("tables")
    facts = list(meter.watch(hand_back_by_crew(out, source, roster, marks)))
    meter.tell("handing back")
    write_class(out, source, roster, facts)
    meter.tell("report")


class Meter:
    """Tells what each part costs a student, and the most memory held so far."""

    def __init__(self, students: int) -> None:
        self._students = students
        self._worker_mib = 0.0
        self._busy_s, self._wall_s = self._look()
        self.tell("reading the course")

    def _look(self) -> tuple[float, float]:
        used = [resource.getrusage(who) for who in _ALL]
        return sum(each.ru_utime + each.ru_stime for each in used), perf_counter()

    def watch(self, things: Iterable[T]) -> Iterator[T]:
        """Pass things on, and look now and then how much memory the workers hold."""
        for number, each in enumerate(things):
            if number % _AT_ONCE == _AT_ONCE - 1:
                held = (_read_most(str(p.pid)) for p in active_children())
                self._worker_mib = max(self._worker_mib, *held, 0)
            yield each

    def tell(self, part: str) -> None:
        """Print what there was since the last part."""
        busy_s, wall_s = self._look()
        own, worker = _read_most("self"), self._worker_mib
        each_ms = 1000 * (busy_s - self._busy_s) / self._students
        sys.stdout.write(
            f"{self._students:>7,} students, {part:<18} {each_ms:7.2f} ms of processor "
            f"each, {wall_s - self._wall_s:7.1f} s by clock; most memory "
            f"{own:6,.0f} MiB here, {worker:6,.0f} MiB in a worker\n"
        )
        sys.stdout.flush()
        self._busy_s, self._wall_s = busy_s, wall_s


def _read_most(process: str) -> float:
    """Return the most memory that a process ever held [MiB], from Linux."""
    # What Python tells of a child is that of whoever started it, if that is more.
    status = Path(f"/proc/{process}/status").read_text()
    (most,) = (line for line in status.splitlines() if line.startswith("VmHWM"))
    return int(most.split()[1]) / 1024


def bench_growth(size: int) -> None:
    """Make a class, and have it issued and marked in processes of their own."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = CourseSource(write_course(folder, size))
        making = time_of(lambda: hand_in(source, folder / "in", size))
        sys.stdout.write(f"making {size:,} hand-ins: {making.say()}\n")
        sys.stdout.flush()
        for task in ("mark", "issue"):
            command = [sys.executable, "-m", "tests.benchmarks.bench_course", "--grow"]
            subprocess.run([*command, task, name], check=True)


def main() -> None:
    """Print all figures, or those of one class that was made."""
    if "--grow" in sys.argv:
        *_, task, name = sys.argv
        grow(Path(name), task)
        return
    numbers = [int(each) for each in sys.argv[1:]]
    issued, marked, *growth = numbers or [ISSUED, MARKED, *GROWTH]
    bench_issuing(issued)
    bench_marking(marked)
    for size in growth:
        bench_growth(size)


if __name__ == "__main__":
    main()
