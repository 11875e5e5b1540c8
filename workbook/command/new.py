"""The command that begins a new lab."""

from __future__ import annotations

from pathlib import Path

import click

from workbook.authoring.sketch import EXAMPLE, check_name, sketch_lab
from workbook.command.newcourse import COURSE_FILE, ROSTER_FILE, start_course
from workbook.issuing.folder import encode_notebooks
from workbook.labfile.reader import LAB_FILE, read_lab
from workbook.store import make_folder

_NEW = click.Path(file_okay=False, path_type=Path)


@click.command("new")
@click.argument("name", type=_NEW)
@click.option(
    "--reaction",
    default=EXAMPLE,
    metavar="LINE",
    help='Like "Mg + 2 HCl -> MgCl2 + H2", or with names: "acid=HCl". What is weighed '
    "comes first: the limiting reagent, the one in excess, and the product.",
)
@click.option(
    "--course",
    "is_course",
    is_flag=True,
    help="Begin a course instead: its file with every setting explained, a roster.",
)
def begin_lab(name: Path, reaction: str, *, is_course: bool) -> None:
    """Make the folder NAME with a lab that passes every check, to be changed."""
    if is_course:
        start_course(name)
        click.echo(
            f"Wrote {name}. Next: name your labs and dates in {name / COURSE_FILE}, "
            f"which explains every setting, and your students in {name / ROSTER_FILE}."
        )
        return
    check_name(name.name)
    text = sketch_lab(name.name, reaction)
    with make_folder(name) as draft:
        (draft / LAB_FILE).write_text(text, encoding="utf-8")
        for file, content in encode_notebooks(read_lab(draft).public).items():
            (draft / file).write_bytes(content)
    click.echo(
        f"Wrote {name} with a lab that passes every check. Next: change "
        f"{name / LAB_FILE}, which teaches its own grammar; then workbook check {name}"
    )
