"""
Attempts judged per second, one at a time and in bulk, and fair draws per second.

Run as ``python tests/benchmarks/bench_judge.py``; pytest does not collect it. An
attempt is one step answered; one at a time means that the whole sheet is judged for
it, as the checker does while a student works.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

from workbook.draw.key import CourseKey
from workbook.draw.sample import draw_class
from workbook.judge.judge import judge, judge_sheet
from workbook.labfile.course import Conventions
from workbook.labfile.reader import read_lab
from workbook.rehearsal.habit import draw_habit
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.student import Student
from workbook.solver.bench import prepare

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.judge.case import Case
    from workbook.wire.answer import Answer

EXERCISES = Path(__file__).parents[2] / "exercises"

#: Sheets that are judged whole, and of which each step is judged alone [-].
BULK, ALONE = 300, 12

#: Students who are drawn [-].
CLASSES = (1, 100, 10_000)

#: Each figure is the best of so many runs: what the machine can do undisturbed.
RUNS = 3


def time_of(work: Callable[[], object]) -> float:
    """Return how long something takes [s], the best of a few runs."""
    best = float("inf")
    for _ in range(RUNS):
        start = perf_counter()
        work()
        best = min(best, perf_counter() - start)
    return best


def answer_honestly(case: Case, seed: int) -> Mapping[str, Answer]:
    """Return the sheet of an honest student."""
    chance = random.Random(seed)  # noqa: S311 - nothing is hidden here
    paper = Paper(case, draw_habit(chance), chance, {})
    return Student(paper, chance).answer_all()


def time_lab(folder: Path) -> None:
    """Print the figures of one lab."""
    bench = prepare(read_lab(folder), Conventions())
    key = CourseKey(bytes(32))
    cases = bench.draw(key, [str(number) for number in range(BULK)])
    sheets = [(case, answer_honestly(case, at)) for at, case in enumerate(cases)]
    attempts = sum(len(answers) for _, answers in sheets)
    bulk = time_of(lambda: [judge_sheet(*sheet) for sheet in sheets])
    few = sheets[:ALONE]
    steps = sum(len(answers) for _, answers in few)
    alone = time_of(
        lambda: [judge(case, step, each) for case, each in few for step in each]
    )
    out = sys.stdout
    out.write(f"{folder.name}\n")
    out.write(f"  in bulk, {BULK} sheets: {attempts / bulk:,.0f} attempts/s\n")
    out.write(f"  one at a time: {steps / alone:,.0f} attempts/s\n")
    for size in CLASSES:
        students = [str(number) for number in range(size)]
        drawn = time_of(lambda: draw_class(bench.compiled, key, students))  # noqa: B023 - called before it changes
        out.write(f"  drawn fairly, {size:,} students: {size / drawn:,.0f} a second\n")


def main() -> None:
    """Print the figures of every lab."""
    for path in sorted(EXERCISES.glob("*/lab.toml")):
        time_lab(path.parent)


if __name__ == "__main__":
    main()
