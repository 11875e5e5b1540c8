"""The command that writes the hand-ins of a class that never was."""

from __future__ import annotations

from pathlib import Path

import click

from workbook.command.course import prepare_course
from workbook.rehearsal.pile import pile_up
from workbook.solver.source import CourseSource
from workbook.store import make_folder

_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.command("pretend")
@click.argument("course", type=_FILE)
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    required=True,
    help="The folder to make.",
)
@click.option("--seed", type=int, default=1, help="Another gives another class.")
def pretend_class(course: Path, to: Path, seed: int) -> None:
    """Write hand-ins of a simulated class of COURSE, to try marking before term."""
    students = [student.id for student in prepare_course(course)]
    source = CourseSource(course)
    number = 0
    with make_folder(to) as draft:
        for lab in source.labs:
            made = pile_up(source, lab, students, seed)
            with click.progressbar(made, length=len(students), label=lab) as files:
                for name, content in files:
                    (draft / name).write_bytes(content)
                    number += 1
    click.echo(
        f"Wrote {number} hand-ins to {to}: a few are empty, cut short, late, foreign "
        f"or doubled, and some students handed in nothing. Next: workbook mark "
        f"{course} --handins {to} --to marks"
    )
