"""
The solver as a process: requests come in as lines, replies go out as lines.

Started as ``python -m workbook.solver FOLDER``, where FOLDER holds the notebooks.
It finds its lab by itself, so that the kernel never learns where the lab lies: the
course that the environment variable WORKBOOK_COURSE names; else the trial in
FOLDER/.checker; else the lab file in FOLDER, for practice.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

import msgspec

from workbook.errors import TaskError, WorkbookError
from workbook.labfile.reader import LAB_FILE
from workbook.solver.desk import Desk, refuse
from workbook.solver.source import CourseSource, PracticeSource, Source
from workbook.wire.message import (
    MESSAGE_VERSION,
    Refused,
    Reply,
    Statement,
    Why,
    encode,
    read_request,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.wire.message import Question

_NO_REQUEST = "This is not a request."

#: The environment variable that names a course file.
COURSE_VARIABLE = "WORKBOOK_COURSE"

#: Where a trial keeps its course, beside the notebooks.
TRIAL_COURSE = Path(".checker", "course.toml")


def find_source(folder: Path) -> Source:
    """
    Return the source that belongs to a folder of notebooks.

    Parameters
    ----------
    folder : Path
        Where the notebooks lie.

    Returns
    -------
    Source
        A course's, a trial's, or one for practice.

    Raises
    ------
    AuthorError
        If a course or lab file has a mistake.
    TaskError
        If there is nothing to find.
    """
    named = os.environ.get(COURSE_VARIABLE)
    for course in (Path(named) if named else None, folder / TRIAL_COURSE):
        if course is not None and course.exists():
            return CourseSource(course)
    if (folder / LAB_FILE).exists():
        return PracticeSource(folder)
    msg = (
        "No checker was found for this folder. Your answers are kept; hand them in, "
        "and they are judged then."
    )
    raise TaskError(msg)


def serve(
    answer: Callable[[Question], Statement], come: BinaryIO, go: BinaryIO
) -> None:
    """
    Answer requests until there are no more.

    Parameters
    ----------
    answer : callable
        Gives the statement for a question.
    come : binary file
        Requests, one a line.
    go : binary file
        Replies, one a line, each sent at once.
    """
    for line in come:
        go.write(encode(reply_to(answer, line)))
        go.flush()


def reply_to(answer: Callable[[Question], Statement], line: bytes) -> Reply:
    """
    Return the reply to one line.

    Parameters
    ----------
    answer : callable
        Gives the statement for a question.
    line : bytes
        As it came.

    Returns
    -------
    Reply
        A refusal if the line is no request, or of another version.
    """
    try:
        request = read_request(line)
    except msgspec.DecodeError:
        return Reply(MESSAGE_VERSION, 0, Refused(Why.REQUEST, _NO_REQUEST))
    if request.version != MESSAGE_VERSION:
        reason = (
            f"The notebook speaks version {request.version}, the checker version "
            f"{MESSAGE_VERSION}. Restart the kernel; if that does not help, ask your "
            "instructor."
        )
        refused = Refused(Why.VERSION, reason)
        return Reply(MESSAGE_VERSION, request.number, refused)
    return Reply(MESSAGE_VERSION, request.number, answer(request.question))


def main(folder: Path) -> None:
    """
    Serve one folder of notebooks over standard input and output.

    Parameters
    ----------
    folder : Path
        Where the notebooks lie.
    """
    serve(find_answer(folder), sys.stdin.buffer, sys.stdout.buffer)


def find_answer(folder: Path) -> Callable[[Question], Statement]:
    """
    Return what answers questions about a folder of notebooks.

    Parameters
    ----------
    folder : Path
        Where the notebooks lie.

    Returns
    -------
    callable
        A desk; where there is nothing to serve, a refusal of every question.
    """
    try:
        return Desk(find_source(folder)).answer
    except WorkbookError as error:
        refused = refuse(error)
        return lambda _: refused


if __name__ == "__main__":
    main(Path(sys.argv[1]))
