"""
A class in the last minute before a deadline, and what durable writing alone costs.

Run as ``python -m tests.benchmarks.deadline [STUDENTS [TRIES [SECONDS [DATABASE]]]]``;
it serves on the loopback address alone, and ends by itself. DATABASE is an address, or
``postgres`` for a server of PostgreSQL that is started for this alone. The load comes
from the same machine. An answer's time runs from the moment at which it was due.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

from tests.benchmarks.bare import serve_bare
from tests.support.load import make_crowd, make_pupils
from tests.support.postgres import need_programs, run_server
from tests.support.rush import Rush, rush, send_all
from tests.support.serving import serve

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tests.support.load import Pupil

#: What is done unless told otherwise.
STUDENTS, TRIES, SECONDS = 500, 10, 60

#: What stands for a server of PostgreSQL of the benchmark's own.
_SERVER = "postgres"

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


def find_databases(stack: ExitStack, said: str, folder: Path) -> tuple[str, str]:
    """Return where the service keeps its record, and where the bare endpoint does."""
    if said == _SERVER:
        server = stack.enter_context(run_server(need_programs()))
        return server.make(), server.make()
    own, bare = (f"sqlite:///{folder / name}.sqlite" for name in ("record", "bare"))
    return said or own, said or bare


def main() -> None:
    """Print the figures of the deadline, and the two paces."""
    numbers = [int(each) for each in sys.argv[1:4]]
    students, tries, seconds = (*numbers, *(STUDENTS, TRIES, SECONDS)[len(numbers) :])
    said = sys.argv[4] if len(sys.argv) > 4 else ""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        database, bare = find_databases(stack, said, folder)
        course = make_crowd(folder, students)
        pupils = make_pupils(course, students, seed=1)
        more = ("--workers", str(WORKERS), "--database", database)
        with serve(course, *more) as service:
            print_rush(rush(service.address, pupils, tries, seconds))
            pace = measure_pace(service.address, pupils)
        with serve_bare(bare, WORKERS, folder) as address:
            bare_pace = measure_pace(address, pupils)
    sys.stdout.write(
        f"{pace:,.0f} attempts/s judged, {bare_pace:,.0f} written by an endpoint that "
        f"does no more: ratio {pace / bare_pace:.2f}\n"
    )


if __name__ == "__main__":
    main()
