"""A lab tried out on a simulated class, from its file to the figures."""

from __future__ import annotations

import hashlib
from itertools import count
from typing import TYPE_CHECKING

from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.rehearsal.classroom import Classroom
from workbook.rehearsal.tally import Tally
from workbook.solver.bench import prepare

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.half import Lab

#: Attempts that one copy of a lab serves for, about [-].
_PER_COPY = 120


def rehearse(lab: Lab, attempts: int, seed: int) -> Iterator[Tally]:
    """
    Try a lab out, student by student.

    Parameters
    ----------
    lab : Lab
        Read and split.
    attempts : int
        Steps to be answered and judged, at least [-].
    seed : int
        The same seed gives the same figures [-].

    Yields
    ------
    Tally
        The same one after each student, further on each time.

    Raises
    ------
    DrawError
        If a student gets no fair values.
    """
    benches = [prepare(way, Conventions()) for way in lab.ways.values()]
    key = CourseKey(hashlib.sha256(f"rehearsal {seed}".encode()).digest())
    tally = Tally()
    rooms = [Classroom(each.compiled.graph, seed, tally) for each in benches]
    for batch in count():
        copies = [f"{batch}-{number}" for number in range(attempts // _PER_COPY + 1)]
        # The variants of a lab take turns, so that each is tried as often.
        for cases in zip(*(bench.draw(key, copies) for bench in benches), strict=True):
            for room, case in zip(rooms, cases, strict=True):
                room.sit(case)
                yield tally
                if tally.attempts >= attempts:
                    return
