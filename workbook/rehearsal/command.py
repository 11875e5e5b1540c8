"""The command that tries a lab out on a simulated class."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from workbook.labfile.reader import read_lab
from workbook.rehearsal.lesson import rehearse
from workbook.rehearsal.page import print_page, tabulate

if TYPE_CHECKING:
    from workbook.labfile.half import Lab
    from workbook.rehearsal.tally import Tally

#: Attempts for each lab, unless another number is asked for [-].
ATTEMPTS = 100_000

_LAB = click.Path(exists=True, file_okay=False, path_type=Path)
_COUNT = click.IntRange(min=1)


@click.command("rehearse")
@click.argument("labs", metavar="LAB...", type=_LAB, nargs=-1, required=True)
@click.option(
    "--attempts",
    type=_COUNT,
    default=ATTEMPTS,
    show_default=True,
    help="Steps to be answered and judged, for each lab.",
)
@click.option("--seed", type=int, default=1, help="Another gives another class.")
@click.pass_context
def rehearse_labs(
    context: click.Context, labs: tuple[Path, ...], attempts: int, seed: int
) -> None:
    """Try each LAB out on a simulated class, and print how it is judged."""
    missed: list[str] = []
    for folder in labs:
        lab = read_lab(folder)
        name = lab.public.name
        tally = _watch(lab, attempts, seed)
        click.echo(print_page(name, tally) + "\n")
        missed += [name for row in tabulate(tally) if row.is_reached is False][:1]
    if missed:
        click.echo(f"A figure is missed in {', '.join(missed)}. Next: see its lists.")
    else:
        click.echo("Every figure is reached. Nothing was written.")
    context.exit(1 if missed else 0)


def _watch(lab: Lab, attempts: int, seed: int) -> Tally:
    """Show how far a rehearsal is, and return its figures."""
    with click.progressbar(length=attempts, label=lab.public.name) as bar:
        seen = 0
        for tally in rehearse(lab, attempts, seed):
            bar.update(min(tally.attempts, attempts) - seen)
            seen = min(tally.attempts, attempts)
    return tally
