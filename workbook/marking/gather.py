"""A folder of hand-ins to those that are marked, and a sentence for each other."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from workbook.errors import HandInError
from workbook.marking.acceptance import accept
from workbook.marking.document import read_hand_in
from workbook.marking.printable import to_printable

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import datetime

    from workbook.marking.acceptance import Expected
    from workbook.wire.handin import HandIn


@dataclass(frozen=True, slots=True)
class Accepted:
    """A hand-in that is marked."""

    #: The path of its file below the folder of hand-ins.
    name: str
    hand_in: HandIn
    #: A sentence, or the empty text.
    remark: str
    #: When it came in, by somebody else's clock than the student's; None where nobody
    #: says.
    received: datetime | None = None

    @property
    def at(self) -> datetime:
        """When it came in, by the time that counts."""
        return self.hand_in.at if self.received is None else self.received


@dataclass(slots=True)
class Gathered:
    """What became of every file."""

    #: One for each student and lab, in the order of labs and students.
    accepted: list[Accepted] = field(default_factory=list)
    #: Files that can't be marked.
    refused: list[HandInError] = field(default_factory=list)
    #: Files that a newer one of the same student and lab takes the place of.
    superseded: list[HandInError] = field(default_factory=list)


def list_files(folder: Path) -> list[Path]:
    """
    Return the files that look like hand-ins, at any depth.

    A browser or a person may have put something before or after the name that the
    workbook gave: ``a1.handin (1).json``.

    Parameters
    ----------
    folder : Path
        The folder of hand-ins; links to other folders are not followed.

    Returns
    -------
    list of Path
        Sorted, links to files and folders included: they are told of, not opened.
    """
    found = []
    for place, folders, files in os.walk(folder):
        links = [name for name in folders if Path(place, name).is_symlink()]
        named = [n for n in files if ".handin" in n and n.endswith(".json")]
        found += [Path(place, name) for name in (*links, *named)]
    return sorted(found)


def gather(files: Iterable[Path], folder: Path, expected: Expected) -> Gathered:
    """
    Return what can be marked, and why the rest can't.

    Parameters
    ----------
    files : iterable of Path
        What `list_files` found.
    folder : Path
        The folder of hand-ins, from which the files are named.
    expected : Expected
        The course that is marked.

    Returns
    -------
    Gathered
        The newest of each student and lab stands.
    """
    found: dict[tuple[str, str], list[Accepted]] = {}
    gathered = Gathered()
    for path in files:
        name = to_printable(path.relative_to(folder).as_posix())
        try:
            hand_in = read_hand_in(path, name)
            each = Accepted(name, hand_in, accept(hand_in, name, expected))
        except HandInError as error:
            gathered.refused.append(error)
        else:
            sheet = hand_in.sheet
            found.setdefault((sheet.lab, sheet.student), []).append(each)
    for _, several in sorted(found.items()):
        newest = max(several, key=lambda one: (one.hand_in.at, one.name))
        gathered.accepted.append(newest)
        gathered.superseded += _tell_older(several, newest)
    return gathered


def _tell_older(several: list[Accepted], newest: Accepted) -> Iterator[HandInError]:
    for each in several:
        if each is not newest:
            yield HandInError(each.name, f"{newest.name} takes its place.")
