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

from workbook.errors import CheckerRefusedError, WorkbookError
from workbook.labfile.reader import LAB_FILE
from workbook.solver.desk import Desk, refuse
from workbook.solver.practice import PracticeSource
from workbook.solver.reply import reply_to
from workbook.solver.source import CourseSource, Source
from workbook.wire.message import Statement, Why, encode

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from workbook.wire.message import Question

_USAGE = "One folder is expected: python -m workbook.solver FOLDER"
_NO_SOURCE = (
    "No checker was found for this folder. Your answers are kept; hand them in, and "
    "they are judged then."
)

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
        If a course or lab file has a mistake, or the named course is not there.
    CheckerRefusedError
        If there is nothing to find.
    """
    named = os.environ.get(COURSE_VARIABLE)
    if named:
        return CourseSource(Path(named))
    if (folder / TRIAL_COURSE).exists():
        return CourseSource(folder / TRIAL_COURSE)
    if (folder / LAB_FILE).exists():
        return PracticeSource(folder)
    raise CheckerRefusedError(Why.SOURCE.value, _NO_SOURCE)


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


def serve(
    answer: Callable[[Question], Statement], come: Iterable[bytes], go: BinaryIO
) -> None:
    """
    Answer requests until there are no more.

    Parameters
    ----------
    answer : callable
        Gives the statement for a question.
    come : iterable of bytes
        Requests, one a line.
    go : binary file
        Replies, one a line, each sent at once.
    """
    for line in come:
        go.write(encode(reply_to(answer, line)))
        go.flush()


def take_output() -> BinaryIO:
    """
    Return standard output for replies alone, and send every print to the errors.

    Returns
    -------
    binary file
        What a library prints, in Python or below it, can't get among the replies.
    """
    sys.stdout.flush()
    replies = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    sys.stdout = sys.stderr
    return replies


def main(arguments: Sequence[str]) -> str | None:
    """
    Serve one folder of notebooks over standard input and output.

    Parameters
    ----------
    arguments : sequence of str
        The folder, and nothing else.

    Returns
    -------
    str or None
        What is wrong with the arguments; None when all was answered.
    """
    if len(arguments) != 1:
        return _USAGE
    with take_output() as replies:
        serve(find_answer(Path(arguments[0])), sys.stdin.buffer, replies)
    return None


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
