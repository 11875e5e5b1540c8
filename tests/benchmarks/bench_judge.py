"""
Attempts judged per second, one at a time and in bulk, and fair draws per second.

Run as ``python -m tests.benchmarks.bench_judge [LAB ...]``; pytest does not collect it.
An attempt is one step answered; one at a time means beside the rest of a whole sheet,
as the checker does while a student works. Of these the time is that of the processor,
so that a busy machine does not lengthen it.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path
from statistics import median, quantiles
from time import perf_counter, process_time
from typing import TYPE_CHECKING

from workbook.draw.key import CourseKey
from workbook.draw.sample import draw_class
from workbook.judge.judge import judge, judge_sheet
from workbook.labfile.course import Conventions
from workbook.labfile.reader import read_lab
from workbook.rehearsal.habit import draw_habit
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.pile import answer_somehow
from workbook.rehearsal.student import Student
from workbook.solver.bench import prepare

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from typing import TypeAlias

    from workbook.judge.case import Case
    from workbook.wire.answer import Answer

    _Sheet: TypeAlias = tuple[Case, Mapping[str, Answer]]

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


def answer_slipping(case: Case, seed: int) -> Mapping[str, Answer]:
    """Return the sheet of a student who may slip."""
    return answer_somehow(case, random.Random(seed))  # noqa: S311 - nothing is hidden


def time_alone(sheets: Sequence[_Sheet]) -> dict[str, list[float]]:
    """Return how long each step takes beside the rest of its sheet [s], by kind."""
    found: dict[str, list[float]] = {"all kinds": []}
    for case, answers in sheets:
        kinds = {ask.id: ask.kind for ask in case.graph.lab.public.asks}
        for step in answers:
            start = process_time()
            judge(case, step, answers)
            took = process_time() - start
            found["all kinds"].append(took)
            found.setdefault(kinds[step], []).append(took)
    return found


def print_times(found: Mapping[str, Sequence[float]]) -> None:
    """Print a line for each kind of answer."""
    for kind, times_s in found.items():
        per_second = len(times_s) / sum(times_s)
        middle, high = 1000 * median(times_s), 1000 * quantiles(times_s, n=20)[-1]
        sys.stdout.write(
            f"    {kind}: {per_second:,.0f} attempts/s, median {middle:.2f} ms, "
            f"p95 {high:.2f} ms\n"
        )


def time_lab(folder: Path) -> None:
    """Print the figures of one lab."""
    bench = prepare(read_lab(folder), Conventions())
    key = CourseKey(bytes(32))
    cases = bench.draw(key, [str(number) for number in range(BULK)])
    sheets = [(case, answer_honestly(case, at)) for at, case in enumerate(cases)]
    attempts = sum(len(answers) for _, answers in sheets)
    bulk = time_of(lambda: [judge_sheet(*sheet) for sheet in sheets])
    out = sys.stdout
    out.write(f"{folder.name}\n")
    out.write(f"  in bulk, {BULK} sheets: {attempts / bulk:,.0f} attempts/s\n")
    for how, few in (
        ("right", sheets[:ALONE]),
        (
            "with slips",
            [(c, answer_slipping(c, at)) for at, c in enumerate(cases[:ALONE])],
        ),
    ):
        out.write(f"  one at a time, {how}:\n")
        print_times(time_alone(few))
    for size in CLASSES:
        students = [str(number) for number in range(size)]
        drawn = time_of(lambda: draw_class(bench.compiled, key, students))  # noqa: B023 - called before it changes
        out.write(f"  drawn fairly, {size:,} students: {size / drawn:,.0f} a second\n")


def main() -> None:
    """Print the figures of every lab, or of those that are named."""
    every = [path.parent.name for path in sorted(EXERCISES.glob("*/lab.toml"))]
    for name in sys.argv[1:] or every:
        time_lab(EXERCISES / name)


if __name__ == "__main__":
    main()
