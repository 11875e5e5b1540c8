"""
A class in the last minute before a deadline, and what durable writing alone costs.

Run as ``python -m tests.benchmarks.deadline [STUDENTS [TRIES [SECONDS [DATABASE]]]]``;
it serves on the loopback address alone, and ends by itself. The load comes from the
same machine. An answer's time runs from the moment at which its attempt was due.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from tests.benchmarks.bare import serve_bare
from tests.support.load import make_crowd, make_pupils
from tests.support.rush import Rush, rush, send_all
from tests.support.serving import serve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tests.support.load import Pupil

#: What is done unless told otherwise.
STUDENTS, TRIES, SECONDS = 500, 10, 60

#: As many processes as the machine of the figures has cores [-].
WORKERS = 2

#: Attempts that are sent as fast as they are answered, to compare two services [-].
COMPARED = 2000


def print_rush(found: Rush) -> None:
    """Print how a rush went."""
    times_ms = [1000 * each for each in found.times_s]
    cuts = statistics.quantiles(times_ms, n=100)
    sys.stdout.write(
        f"{len(times_ms):,} attempts in {found.took_s:.1f} s: {dict(found.said)}; "
        f"p50 {cuts[49]:.1f} ms, p99 {cuts[98]:.1f} ms, "
        f"longest {max(times_ms):.0f} ms; "
        f"load of the machine {os.getloadavg()[0]:.1f}\n"
    )
    sys.stdout.flush()


def measure_pace(address: str, pupils: Sequence[Pupil]) -> float:
    """Return how many attempts are answered in a second, as fast as may be."""
    found = send_all(address, pupils, COMPARED)
    print_rush(found)
    return COMPARED / found.took_s


def main() -> None:
    """Print the figures of the deadline, and the two paces."""
    numbers = [int(each) for each in sys.argv[1:4]]
    students, tries, seconds = (*numbers, *(STUDENTS, TRIES, SECONDS)[len(numbers) :])
    database = sys.argv[4] if len(sys.argv) > 4 else ""
    more = ("--database", database) if database else ()
    with tempfile.TemporaryDirectory() as folder:
        course = make_crowd(Path(folder), students)
        pupils = make_pupils(course, students, seed=1)
        with serve(course, "--workers", str(WORKERS), *more) as service:
            print_rush(rush(service.address, pupils, tries, seconds))
            pace = measure_pace(service.address, pupils)
        bare = database or f"sqlite:///{folder}/bare.sqlite"
        with serve_bare(bare, WORKERS, Path(folder)) as address:
            bare_pace = measure_pace(address, pupils)
    sys.stdout.write(
        f"{pace:,.0f} attempts/s judged, {bare_pace:,.0f} written by an endpoint that "
        f"does no more: ratio {pace / bare_pace:.2f}\n"
    )


if __name__ == "__main__":
    main()
