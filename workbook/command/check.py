"""The commands of a course author."""

from __future__ import annotations

from pathlib import Path
from time import perf_counter

import click

from workbook.authoring.inspection import inspect_lab
from workbook.authoring.page import encode_inspections, print_inspection
from workbook.errors import AuthorError, TaskError

#: Draws over which `check` looks for a lab's mistakes, unless asked for more [-].
_CHECKED_DRAWS = 1000

#: The exit status where a lab must be mended.
_WRONG = 2

_NO_FOLDER = "{paths}: a lab is a folder with a lab.toml in it, and this is none."

_THERE = click.Path(exists=True, path_type=Path)


@click.command("check")
@click.argument("labs", metavar="LAB...", type=_THERE, nargs=-1, required=True)
@click.option(
    "--draws",
    type=click.IntRange(min=1),
    default=_CHECKED_DRAWS,
    show_default=True,
    help="Draws to look through, of each lab.",
)
@click.option("--json", "is_json", is_flag=True, help="Print all of it as JSON.")
@click.pass_context
def check_labs(
    context: click.Context, labs: tuple[Path, ...], draws: int, *, is_json: bool
) -> None:
    """
    Tell everything that is wrong with each LAB, and what becomes of its draws.

    Files beside the folders of labs, as exercises/* gives them, are passed over.
    """
    began = perf_counter()
    folders = [path for path in labs if path.is_dir()]
    if not folders:
        raise TaskError(_NO_FOLDER.format(paths=", ".join(map(str, labs))))
    inspections = [inspect_lab(folder, draws) for folder in folders]
    findings = tuple(str(told) for each in inspections for told in each.findings)
    if is_json:
        click.echo(encode_inspections(inspections))
        context.exit(_WRONG if findings else 0)
    for each in inspections:
        if said := print_inspection(each):
            click.echo(said)
    click.echo(f"Looked through in {perf_counter() - began:.1f} s.")
    if findings:
        raise AuthorError(findings)
    names = ", ".join(map(str, folders))
    click.echo(f"Nothing is wrong with {names}. Next: workbook try {folders[0]}")
