"""
A whole class by the commands of the README: issued, handed in, marked, handed back.

Run as ``python -m tests.benchmarks.bench_class [STUDENTS]``; pytest takes no part.
Ten of the class have totals that were worked out by hand, and it is told whether all
ten come out; the others are simulated.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from pathlib import Path
from time import perf_counter

from tests.support.command import rows, run
from tests.support.soap import LAB_FOLDER
from tests.support.ten import TOTALS, hand_in_ten, write_course

#: Students, unless another number is given [-].
STUDENTS = 1000


def time_command(*words: object) -> None:
    """Run a command, and print its last line and how long it took."""
    start = perf_counter()
    result = run(*words)
    last = (result.output.splitlines() or [""])[-1]
    taken = perf_counter() - start
    sys.stdout.write(f"{words[0]}: {taken:.1f} s, exit {result.exit_code}: {last}\n")


def main() -> None:
    """Run the commands one after the other, and print what came out."""
    size = int(sys.argv[1]) if len(sys.argv) > 1 else STUDENTS
    with tempfile.TemporaryDirectory() as name:
        os.chdir(name)
        folder = Path(name)
        shutil.copytree(LAB_FOLDER, folder / LAB_FOLDER.name)
        others = [f"s{number}" for number in range(size - len(TOTALS))]
        course = write_course(folder, others)
        time_command("issue", course, "--to", "issued")
        time_command("pretend", course, "--to", "in")
        for path in Path("in").glob("ten-*"):
            path.unlink()
        hand_in_ten(course, Path("in"))
        time_command("mark", course, "--handins", "in", "--to", "marks")
        points = {
            row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))
        }
        kinds = [row["kind"] for row in rows(Path("marks/problems.csv"))]
        told = {kind: kinds.count(kind) for kind in sorted(set(kinds))}
        pages = len(list(Path("marks").rglob("*.html")))
        is_right = {student: points[student] for student in TOTALS} == TOTALS
        sys.stdout.write(
            f"{len(points)} students, {pages} pages, problems {told}; the ten by hand "
            f"come out: {is_right}\n"
        )
        os.chdir("/")


if __name__ == "__main__":
    main()
