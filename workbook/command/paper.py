"""``workbook paper``: problem sets for a class without computers."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict

import click

from workbook.command.course import REPLACE, fill_output, prepare_course, provide_key
from workbook.issuing.answerbook import make_page, print_book
from workbook.judge.noted import settle
from workbook.labfile.roster import Student
from workbook.report.paper import (
    SUBJECTS,
    choose_steps,
    count_sides,
    print_papers,
    set_problems,
)
from workbook.solver.source import CourseSource
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from typing_extensions import Unpack

    from workbook.issuing.answerbook import AnswerPage
    from workbook.report.paper import Problems

#: What is written.
PAPERS_FILE, ANSWERS_FILE = "papers.html", "answers.html"

_NEW = click.Path(file_okay=False, path_type=Path)
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


class PaperOptions(TypedDict):
    """The options, by their names."""

    to: Path
    picks: tuple[str, ...]
    subject: str | None
    variants: int | None
    may_replace: bool


@click.command("paper")
@click.argument("course", type=_FILE)
@click.option("--to", type=_NEW, required=True, help="The folder to make.")
@click.option(
    "--pick",
    "picks",
    multiple=True,
    metavar="LAB[/STEP]",
    help="A lab, or one of its steps; it can be given several times.",
)
@click.option(
    "--about", "subject", type=click.Choice(sorted(SUBJECTS)), help="Only such steps."
)
@click.option(
    "--variants",
    type=click.IntRange(min=1, max=10_000),
    help="So many numbered papers, in place of one for each student.",
)
@click.option("--replace", "may_replace", is_flag=True, help=REPLACE)
def print_course(course: Path, **options: Unpack[PaperOptions]) -> None:
    """Print problems of COURSE with values for each student, and the answer book."""
    roster = prepare_course(course)
    provide_key(course)
    source = CourseSource(course)
    takers = _number(options["variants"]) if options["variants"] else roster
    papers, answers = _set(source, takers, options)
    title = source.course.title
    owned = (PAPERS_FILE, ANSWERS_FILE)
    with fill_output(options["to"], owned, may_replace=options["may_replace"]) as draft:
        (draft / PAPERS_FILE).write_bytes(print_papers(title, papers))
        (draft / ANSWERS_FILE).write_bytes(b"".join(print_book(title, answers)))
    to, sides = options["to"], count_sides(papers)
    each = "a page" if sides == 1 else f"{sides} pages"
    how = "" if sides == 1 else ", on both sides of the paper"
    click.echo(
        f"Wrote {len(papers)} papers of {each} to {to / PAPERS_FILE}, and the answer "
        f"book to {to / ANSWERS_FILE}. Next: print the papers from a browser{how}, and "
        f"keep the answer book."
    )


def _number(variants: int) -> tuple[Student, ...]:
    """Return takers without a name: more of them later leave the first as they are."""
    numbers = range(1, variants + 1)
    return tuple(Student(f"variant-{number:04}", "") for number in numbers)


def _set(
    source: CourseSource, takers: Sequence[Student], options: PaperOptions
) -> tuple[list[Problems], list[AnswerPage]]:
    ids = [taker.id for taker in takers]
    graphs = {lab: source.cases(lab, ids[:1])[0].graph for lab in source.labs}
    chosen = choose_steps(graphs, options["picks"], options["subject"])
    papers: list[Problems] = []
    answers: list[AnswerPage] = []
    for lab, steps in chosen.items():
        revision = source.labs[lab].public.revision
        cases = zip(takers, source.cases(lab, ids), strict=True)
        with click.progressbar(cases, length=len(takers), label=lab) as watched:
            for taker, case in watched:
                sheet_id = SheetId(source.name, lab, revision, taker.id)
                sheet = source.show_whole(sheet_id, case)
                paper = set_problems(taker, sheet, case.graph, steps)
                papers.append(paper)
                page = make_page(taker, settle(case, {}))
                answers.append(_number_answers(page, paper.numbers))
    return papers, answers


def _number_answers(page: AnswerPage, numbers: Mapping[str, int]) -> AnswerPage:
    """Keep what is asked, by its numbers on the paper."""
    steps = tuple(
        replace(step, label=f"{numbers[step.step_id]}. {step.label}")
        for step in page.steps
        if step.step_id in numbers
    )
    return replace(page, steps=steps)
