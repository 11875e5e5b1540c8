"""A course carried on to another year: new dates, a new key, and nobody's data."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click
import tomlkit

from workbook.command.bundle import COURSE_FILE, bundle_labs, rewrite_course
from workbook.draw.key import new_key, write_key
from workbook.errors import TaskError
from workbook.labfile.course import read_course
from workbook.labfile.roster import explain_id
from workbook.solver.source import KEY_FILE
from workbook.store import make_folder

if TYPE_CHECKING:
    from collections.abc import MutableMapping

    from tomlkit import TOMLDocument

_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)

#: What was true of one year's people and bottles only.
_DROPPED = ("extensions", "bottles")

#: A roster to be filled in.
_ROSTER_FILE, _ROSTER = "roster.csv", "student,name,section\n"


@click.command("roll")
@click.argument("course", type=_FILE)
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    required=True,
    help="The folder to make; its name becomes the course's.",
)
@click.option(
    "--days",
    type=int,
    default=364,
    show_default=True,
    help="By how much all dates move; 364 keeps the day of the week.",
)
@click.option("--roster", type=_FILE, help="Who takes it next; a CSV file.")
def roll_course(course: Path, to: Path, days: int, roster: Path | None) -> None:
    """Make next year's folder of COURSE: its labs, later dates, and a new key."""
    if wrong := explain_id(to.name):
        msg = f"The name {to.name!r} {wrong}."
        raise TaskError(msg)
    found = read_course(course)
    if found.name == to.name:
        msg = f"The course is called {to.name!r} already; give another folder."
        raise TaskError(msg)
    document = rewrite_course(found)
    _carry_on(document, to.name, timedelta(days=days))
    files = bundle_labs(found) | {
        COURSE_FILE: tomlkit.dumps(document).encode(),
        _ROSTER_FILE: _ROSTER.encode() if roster is None else roster.read_bytes(),
    }
    with make_folder(to) as draft:
        for name, content in files.items():
            (draft / name).parent.mkdir(parents=True, exist_ok=True)
            (draft / name).write_bytes(content)
        write_key(new_key(), draft / KEY_FILE)
    click.echo(
        f"Wrote {to} with later dates and a new key: everybody has other values. "
        f"Left behind: students, extensions, bottles, permits, decisions. Next: look "
        f"through {to / COURSE_FILE}, and fill in {to / _ROSTER_FILE}."
    )


def _carry_on(document: TOMLDocument, name: str, later: timedelta) -> None:
    table = cast("MutableMapping[str, object]", document["course"])
    table.update({"name": name, "roster": _ROSTER_FILE})
    for key in _DROPPED:
        document.pop(key, None)
    for dates in document.get("dates", {}).values():
        for key, moment in list(dates.items()):
            if isinstance(moment, datetime):
                dates[key] = moment + later
