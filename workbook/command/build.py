"""The command that writes what is made from a lab file: notebooks and drawings."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from workbook.authoring.scheme import draw
from workbook.authoring.structure import BRING, has_structures
from workbook.errors import TaskError
from workbook.issuing.folder import encode_notebooks, find_out_of_step, find_undrawn
from workbook.labfile.reader import LAB_FILE, read_lab
from workbook.store import write_file

if TYPE_CHECKING:
    from collections.abc import Mapping


_THERE = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command("build")
@click.argument("lab", type=_THERE)
@click.option("--replace", "may_replace", is_flag=True, help="Write changed ones anew.")
def build_lab(lab: Path, *, may_replace: bool) -> None:
    """Write the two notebooks of LAB from its lab file, and draw its structures."""
    public = read_lab(lab).public
    stale = find_out_of_step(lab, public)
    undrawn = find_undrawn(lab, public)
    can_draw = has_structures()
    names = [*stale, *(each.file for each in undrawn if can_draw)]
    _refuse_changed(lab, names, may_replace=may_replace)
    notebooks = encode_notebooks(public)
    files = {name: notebooks[name] for name in stale}
    if can_draw:
        files |= {each.file: draw(each) for each in undrawn}
    _write(lab, files, may_replace=may_replace)
    if undrawn and not can_draw:
        shown = " and ".join(each.file for each in undrawn)
        click.echo(f"Not drawn: {shown}. RDKit is not installed. {BRING}")


def _refuse_changed(lab: Path, names: list[str], *, may_replace: bool) -> None:
    there = [name for name in names if (lab / name).exists()]
    if there and not may_replace:
        msg = (
            f"{lab}: {' and '.join(there)} differ from what {LAB_FILE} gives, and were "
            f"left as they are. Add --replace to write them anew."
        )
        raise TaskError(msg)


def _write(lab: Path, files: Mapping[str, bytes], *, may_replace: bool) -> None:
    for name, content in files.items():
        write_file(lab / name, content, may_replace=may_replace)
    if files:
        shown = " and ".join(files)
        click.echo(f"Wrote {shown} to {lab}. Next: workbook check {lab}")
    else:
        click.echo(f"The notebooks of {lab} are in step. Nothing was written.")
