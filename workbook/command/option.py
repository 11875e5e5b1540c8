"""What ``workbook mark`` may be told."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, TypeVar

import click

from workbook.command.course import REPLACE

if TYPE_CHECKING:
    from collections.abc import Callable

Command = TypeVar("Command", bound="Callable[..., object]")

_NEW = click.Path(file_okay=False, path_type=Path)
_THERE = click.Path(exists=True, path_type=Path)
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


class MarkOptions(TypedDict):
    """The options, by their names."""

    #: A folder of hand-ins or a ZIP, or else the address of a service's record.
    handins: Path | None
    record: str | None
    to: Path
    may_replace: bool
    #: What an instructor's own list says of readings.
    readings: Path | None
    #: When each file came in.
    received: Path | None
    trusts_files: bool
    #: An earlier folder of marks.
    against: Path | None
    raises_only: bool
    is_agreed: bool
    cores: int | None
    cluster: str | None


_OPTIONS = (
    click.argument("course", type=_FILE),
    click.option("--handins", type=_THERE, help="A folder of hand-ins, or a ZIP."),
    click.option(
        "--record",
        help="In place of hand-ins, the record of `workbook serve`: the address of its "
        "database, such as sqlite:///course.record.sqlite, or its folder in an "
        "unpacked archive.",
    ),
    click.option("--to", type=_NEW, required=True, help="The folder to make."),
    click.option("--replace", "may_replace", is_flag=True, help=REPLACE),
    click.option(
        "--readings",
        type=_FILE,
        help="What the balances showed: a CSV file with student, reading and value.",
    ),
    click.option(
        "--received",
        type=_FILE,
        help="When each file came in: a CSV file with file and received.",
    ),
    click.option(
        "--file-times",
        "trusts_files",
        is_flag=True,
        help="Take the files' own times for those at which they came in.",
    ),
    click.option(
        "--against",
        type=_THERE,
        help="An earlier folder of marks: tell what changes, and ask before writing.",
    ),
    click.option(
        "--raise-only",
        "raises_only",
        is_flag=True,
        help="Keep an earlier mark that was higher.",
    ),
    click.option("--yes", "is_agreed", is_flag=True, help="Write without asking."),
    click.option(
        "--cores",
        type=click.IntRange(min=1),
        help="Processes to mark with; as many as there are cores unless said.",
    ),
    click.option("--cluster", help="The address of a Dask cluster to mark with."),
)


def add_mark_options(command: Command) -> Command:
    """
    Return a command with the argument and the options of marking.

    Parameters
    ----------
    command : callable
        It takes them by their names.

    Returns
    -------
    callable
        In the order in which help lists them.
    """
    for add in reversed(_OPTIONS):
        command = add(command)
    return command
