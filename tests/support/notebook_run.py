"""One notebook run from end to end in a kernel of its own, and what came of it."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec
import nbformat
from nbclient import NotebookClient

from tests.support import tap
from workbook.client.place import SHEET_FILE

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.wire.answer import Answer

ROOT = Path(__file__).parents[2]

#: How long one cell may take on a busy machine [s].
_LIMIT_S = 60

#: Lets the notebook's own checker speak through a tap.
_SETUP = """\
import sys
import msgspec
from workbook.client import way
from workbook.client.pipe import PipeChecker
from workbook.wire.answer import Answer

sys.path.append({root!r})
way.PipeChecker = lambda folder: PipeChecker(folder, command={command!r})
"""

_LIST = """\
from tests.support.heap import list_kernel

list_kernel({to!r}, {sheet!r})
"""

_ANSWER = """\
card = page.card({step!r})
card.pad.write(msgspec.json.decode({answer!r}, type=Answer))
card.check()
"""


class Listing(msgspec.Struct, frozen=True):
    """What `list_kernel` wrote."""

    modules: tuple[str, ...]
    environ: dict[str, str]
    traits: dict[str, Any]
    texts: tuple[str, ...]
    numbers: tuple[str, ...]
    groups: tuple[tuple[str, ...], ...]
    kinds: tuple[str, ...]


@dataclass(frozen=True)
class Line:
    """A line that crossed the border."""

    is_reply: bool
    message: dict[str, Any]


@dataclass(frozen=True)
class Run:
    """A notebook that was run, answered and handed in."""

    folder: Path
    #: The kernel with every card shown, before anything was answered.
    silent: Listing
    #: The kernel at the end.
    answered: Listing
    #: The notebook's file, every widget's traits in its metadata.
    saved: str
    #: What crossed the border, in order.
    lines: tuple[Line, ...]


def solver_command(folder: Path) -> tuple[str, ...]:
    """Return the command by which a notebook starts its solver."""
    return (sys.executable, "-P", "-m", "workbook.solver", str(folder))


def tap_command(record: Path, command: Iterable[str]) -> tuple[str, ...]:
    """Return a command that runs another and writes down what is said."""
    return (sys.executable, "-P", tap.__file__, str(record), *command)


def read_lines(record: Path) -> tuple[Line, ...]:
    """Return what a tap wrote down, in order."""
    if not record.exists():
        return ()
    return tuple(
        Line(line.startswith(tap.SAID), json.loads(line[1:]))
        for line in record.read_bytes().splitlines()
    )


def run_notebook(
    notebook: Path, course: Path, place: Path, tries: Iterable[tuple[str, Answer]]
) -> Run:
    """
    Run a notebook as issued, list its kernel, answer, hand in, list it again.

    Parameters
    ----------
    notebook : Path
        In the student's folder.
    course : Path
        The course file, which the environment names.
    place : Path
        Where the listings and the record of messages go.
    tries : iterable of tuple of str and Answer
        What is answered, step by step, by way of the cards.

    Returns
    -------
    Run
        Everything that can be looked through.
    """
    record, sheet = place / "lines", notebook.parent / SHEET_FILE
    command = tap_command(record, solver_command(notebook.parent))
    read = nbformat.read(notebook, as_version=4)
    read.cells = [
        _cell(_SETUP, root=str(ROOT), command=command),
        *read.cells,
        _cell(_LIST, to=str(place / "silent"), sheet=str(sheet)),
        *(_answer(step, answer) for step, answer in tries),
        _cell("page.hand_in().hand_in()"),
        _cell(_LIST, to=str(place / "answered"), sheet=str(sheet)),
    ]
    saved = _execute(read, notebook.parent, course, place / "home")
    listings = {name: _read_listing(place / name) for name in ("silent", "answered")}
    return Run(notebook.parent, **listings, saved=saved, lines=read_lines(record))


def _cell(code: str, **parts: object) -> nbformat.NotebookNode:
    cell: nbformat.NotebookNode = nbformat.v4.new_code_cell(code.format(**parts))
    return cell


def _answer(step: str, answer: Answer) -> nbformat.NotebookNode:
    text = msgspec.json.encode(answer).decode()
    return _cell(_ANSWER, step=step, answer=text)


def _execute(
    notebook: nbformat.NotebookNode, folder: Path, course: Path, home: Path
) -> str:
    """Run every cell, and return the notebook's file as it is saved."""
    settings = {
        name: str(home)
        for name in ("HOME", "IPYTHONDIR", "JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR")
    }
    settings["WORKBOOK_COURSE"] = str(course)
    resources = {"metadata": {"path": str(folder)}}
    client = NotebookClient(notebook, timeout=_LIMIT_S, resources=resources)
    client.execute(env={**os.environ, **settings})
    return str(nbformat.writes(notebook))


def _read_listing(path: Path) -> Listing:
    return msgspec.json.decode(path.read_bytes(), type=Listing)
