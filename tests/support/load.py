"""A class that sends attempts to a service, over connections that stay open."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from http.client import HTTPConnection, HTTPException
from itertools import cycle
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urlsplit

from tests.support.lab import LIME
from tests.support.serving import PATIENCE_S, Heard
from tests.support.soap import COURSE, LAB_FOLDER, make_course
from workbook.checker.caller import Caller
from workbook.checker.token import make_token
from workbook.draw.key import read_key
from workbook.rehearsal.pile import answer_somehow
from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.message import (
    MESSAGE_VERSION,
    JudgeAttempt,
    Request,
    encode,
    read_reply,
)
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from workbook.wire.answer import Answer
    from workbook.wire.message import Question

#: What a line raises while nobody answers at its other end.
SILENCE = (OSError, HTTPException)


class Pupil(NamedTuple):
    """One student of a crowd."""

    #: The header by which the student is known.
    header: str
    #: Attempts without end, each with a name of its own.
    attempts: Iterator[JudgeAttempt]


def make_crowd(folder: Path, students: int, lab: Path = LAB_FOLDER) -> Path:
    """Write a course of so many students on one lab, and return its file."""
    path = make_course(folder)
    course = path.read_text(encoding="utf-8")
    path.write_text(course.replace(LAB_FOLDER.as_posix(), lab.as_posix()), "utf-8")
    rows = (f"s{number},Student {number},all\n" for number in range(students))
    roster = "".join(("student,name,section\n", *rows))
    (folder / "roster.csv").write_text(roster, encoding="utf-8")
    return path


def make_small_lab(folder: Path) -> Path:
    """Write a lab that a service is ready for at once, and return its folder."""
    place = folder / "lime"
    place.mkdir()
    (place / "lab.toml").write_text(LIME, encoding="utf-8")
    return place


def make_pupils(course: Path, students: int, seed: int) -> list[Pupil]:
    """Return the students of a crowd, who work rightly and with slips."""
    key = read_key(course.parent / KEY_FILE)
    until = datetime.now(UTC) + timedelta(days=1)
    names = [f"s{number}" for number in range(students)]
    source = CourseSource(course)
    (lab,) = source.labs
    pupils = []
    for name, case in zip(names, source.cases(lab, names), strict=True):
        chance = random.Random(f"{seed} {name}")  # noqa: S311 - hides nothing
        steps = list(answer_somehow(case, chance).items())
        token = make_token(key, Caller(COURSE, name, lab), until)
        sheet = SheetId(COURSE, lab, case.graph.lab.public.revision, name)
        attempts = _try_again(sheet, cycle(steps), seed)
        pupils.append(Pupil(f"Bearer {token}", attempts))
    return pupils


def _try_again(
    sheet: SheetId, given: Iterable[tuple[str, Answer]], seed: int
) -> Iterator[JudgeAttempt]:
    for number, (step, answer) in enumerate(given):
        yield JudgeAttempt(sheet, step, answer, {}, f"{seed}-{number}")


class Line:
    """
    A connection to a service; it is opened anew where it was lost.

    Parameters
    ----------
    address : str
        Of the service, without a path behind its prefix.
    patience_s : float
        How long an answer is waited for [s].
    """

    def __init__(self, address: str, patience_s: float = PATIENCE_S) -> None:
        parts = urlsplit(address)
        self._path = f"{parts.path}/ask"
        self._connection = HTTPConnection(parts.netloc, timeout=patience_s)

    def ask(self, header: str, question: Question) -> Heard:
        """Put a question; one of `SILENCE` where nobody answers."""
        body = encode(Request(MESSAGE_VERSION, 1, question))
        try:
            self._connection.request(
                "POST", self._path, body, {"Authorization": header}
            )
            answer = self._connection.getresponse()
            content = answer.read()
        except SILENCE:
            self._connection.close()
            raise
        again_s = int(answer.headers.get("Retry-After", 0))
        return Heard(answer.status, read_reply(content).statement, again_s)

    def close(self) -> None:
        """Hang up."""
        self._connection.close()
