"""
The ``workbook`` command.

Each subcommand reads everything first, makes its result under a hidden name beside
its place, and names it when it is whole. The last line says what was written and
what comes next. The exit status is 0 when all is well, 1 when some hand-ins could
not be marked, and 2 when the command could not do what it was asked.
"""

from __future__ import annotations

import os
import subprocess
import sys
from importlib import import_module
from itertools import count
from pathlib import Path
from typing import IO, TYPE_CHECKING

import click
from typing_extensions import override

from workbook.errors import TaskError, WorkbookError
from workbook.issuing.folder import fill_folder, gather_files
from workbook.issuing.notebook import NOTEBOOK_FILES
from workbook.issuing.trial import TRIAL_STUDENT, make_trial_course
from workbook.labfile.reader import LAB_FILE, read_lab
from workbook.solver.source import CourseSource
from workbook.store import make_folder
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Mapping

#: The lab that `try` opens in a copy of the repository.
_DEMONSTRATION = Path("exercises", "olive-oil-soap")

#: Where trials are made.
_TRIALS = Path("trials")

#: Where each other command stands. Its module is loaded once it is given, or each of
#: them would wait for what marking needs.
_ELSEWHERE: Mapping[str, str] = {
    "archive": "workbook.command.archive:archive_course",
    "build": "workbook.command.build:build_lab",
    "check": "workbook.command.check:check_labs",
    "extend": "workbook.command.issue:extend_for",
    "issue": "workbook.command.issue:issue_course",
    "mark": "workbook.command.mark:mark_course",
    "new": "workbook.command.new:begin_lab",
    "open": "workbook.command.issue:open_for",
    "paper": "workbook.command.paper:print_course",
    "pretend": "workbook.command.pretend:pretend_class",
    "preview": "workbook.command.preview:preview_lab",
    "rehearse": "workbook.rehearsal.command:rehearse_labs",
    "roll": "workbook.command.roll:roll_course",
    "serve": "workbook.command.serve:serve_course",
    "unpack": "workbook.command.unpack:unpack_course",
}

_THERE = click.Path(exists=True, file_okay=False, path_type=Path)


class _Refusal(click.ClickException):
    """An error of ours, said without a traceback."""

    exit_code = 2

    @override
    def show(self, file: IO[str] | None = None) -> None:
        # Nothing in front: an editor finds file and line at the start of a line.
        click.echo(self.format_message(), file=file, err=True)


class _Commands(click.Group):
    @override
    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted({*super().list_commands(ctx), *_ELSEWHERE})

    @override
    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _ELSEWHERE:
            return super().get_command(ctx, cmd_name)
        module, _, name = _ELSEWHERE[cmd_name].partition(":")
        command: click.Command = getattr(import_module(module), name)
        return command

    @override
    def invoke(self, ctx: click.Context) -> object:
        try:
            return super().invoke(ctx)
        except WorkbookError as error:
            raise _Refusal(str(error)) from error


@click.group(cls=_Commands)
def main() -> None:
    """Pre-lab and post-lab notebooks with values for each student."""


@main.command("try")
@click.argument("lab", type=_THERE, required=False)
@click.option("--no-open", "is_closed", is_flag=True, help="Only make the folder.")
def try_lab(lab: Path | None, *, is_closed: bool) -> None:
    """Make a sheet of LAB with fresh values, and open it in JupyterLab."""
    folder = _find_lab(lab)
    read = read_lab(folder)
    public = read.public
    place = _name_trial(public.name)
    with make_folder(place) as draft:
        source = CourseSource(make_trial_course(draft, folder))
        sheet_id = SheetId(source.name, public.name, public.revision, TRIAL_STUDENT)
        fill_folder(draft, source.sheet(sheet_id), gather_files(read))
    notebook = place / NOTEBOOK_FILES["prelab"]
    click.echo(f"Wrote {place}, a sheet of {public.title!r} with values of its own.")
    if public.gate:
        click.echo(
            f"The readings after the lab are shown when {len(public.gate)} questions "
            f"before it are right."
        )
    if is_closed:
        click.echo(f"Next: open {notebook} in JupyterLab.")
        return
    click.echo(f"Next: {notebook} opens in JupyterLab; Ctrl+C here ends it.")
    command = [
        *(sys.executable, "-m", "jupyter", "lab"),
        f"--ServerApp.root_dir={place.resolve()}",
        # Printed with the address too, for whoever has no browser on this machine.
        f"--LabApp.default_url=/lab/tree/{notebook.name}",
        *_as_root(),
    ]
    subprocess.run(command, check=False)  # noqa: S603 - our own interpreter, no shell


def _as_root() -> list[str]:
    # JupyterLab asks whether root is meant; in a container there is nobody else.
    is_root = hasattr(os, "geteuid") and os.geteuid() == 0
    return ["--allow-root"] if is_root else []


def _find_lab(lab: Path | None) -> Path:
    if lab is not None:
        return lab
    if not (_DEMONSTRATION / LAB_FILE).is_file():
        msg = (
            f"{_DEMONSTRATION} is not here, so there is no lab to try. Give the folder "
            f"of one: workbook try FOLDER"
        )
        raise TaskError(msg)
    return _DEMONSTRATION


def _name_trial(lab: str) -> Path:
    names = (_TRIALS / f"{lab}-{number}" for number in count(1))
    return next(name for name in names if not name.exists())
