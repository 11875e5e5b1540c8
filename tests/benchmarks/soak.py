"""
A service under modest load for long: memory, open files and size of the database.

Run as ``python -m tests.benchmarks.soak [MINUTES [PER_SECOND [DATABASE]]]``; it serves
on the loopback address alone, and ends by itself.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from tests.support.load import Line, make_crowd, make_pupils
from tests.support.serving import serve
from tests.support.watch import look_at
from workbook.wire.message import Judged

if TYPE_CHECKING:
    from tests.support.load import Pupil
    from tests.support.serving import Service

#: What is done unless told otherwise.
MINUTES, PER_SECOND = 30.0, 3.0

STUDENTS = 100

#: How often something is printed on the way [s].
_PRINTED_S = 300.0


def soak(
    service: Service, pupils: list[Pupil], minutes: float, per_second: float
) -> Counter[str]:
    """Send attempts at a steady pace, and return how many were answered how."""
    line, said = Line(service.address), Counter[str]()
    began_s = time.monotonic()
    printed_s = began_s
    for number in range(round(60 * minutes * per_second)):
        time.sleep(max(0.0, began_s + number / per_second - time.monotonic()))
        pupil = pupils[number % len(pupils)]
        heard = line.ask(pupil.header, next(pupil.attempts))
        is_judged = isinstance(heard.statement, Judged)
        said["judged" if is_judged else f"status {heard.status}"] += 1
        if time.monotonic() - printed_s > _PRINTED_S:
            printed_s = time.monotonic()
            tell(service, f"after {(printed_s - began_s) / 60:.0f} min")
    line.close()
    return said


def tell(service: Service, when: str) -> None:
    """Print what a service takes of the machine."""
    seen = look_at(service.process.pid)
    folder = service.log.parent
    sizes = [
        f"{each.suffix[1:]} {each.stat().st_size / 1e6:.2f} MB"
        for each in sorted(folder.glob("*.sqlite*"))
    ]
    load = os.getloadavg()[0]
    sys.stdout.write(
        f"{when}: {seen.processes} processes, {seen.memory_mb:.1f} MB, "
        f"{seen.files} open files, {', '.join(sizes) or 'a server keeps the record'}; "
        f"load of the machine {load:.1f}\n"
    )
    sys.stdout.flush()


def main() -> None:
    """Print the figures at the start and at the end."""
    numbers = [float(each) for each in sys.argv[1:3]]
    minutes, per_second = (*numbers, *(MINUTES, PER_SECOND)[len(numbers) :])
    more = ("--database", sys.argv[3]) if len(sys.argv) > 3 else ()
    with tempfile.TemporaryDirectory() as folder:
        course = make_crowd(Path(folder), STUDENTS)
        pupils = make_pupils(course, STUDENTS, seed=1)
        with serve(course, *more) as service:
            warm = soak(service, pupils, STUDENTS / 60 / 20, 20)
            tell(service, f"start, every sheet asked once ({warm.total()} attempts)")
            said = soak(service, pupils, minutes, per_second)
            tell(service, f"end, {minutes:g} min at {per_second:g} attempts/s")
    sys.stdout.write(f"answered: {dict(sorted(said.items()))}\n")


if __name__ == "__main__":
    main()
