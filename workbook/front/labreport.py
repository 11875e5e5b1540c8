"""
A student's lab report: one page for a printer, made of their own work.

It needs no network and no script, and holds nothing that the student has not written
or been shown: the sheet, their answers, and what was said of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from importlib.resources import files
from typing import TYPE_CHECKING
from urllib.parse import quote

from workbook.front.formula import show_formula
from workbook.front.listing import show_text, show_typed
from workbook.front.saying import WORDS, show_verdict
from workbook.front.shape import draw
from workbook.front.table import show_table
from workbook.front.working import result_of, show_working
from workbook.wire.answer import Noted
from workbook.wire.sheet import OwnStep, ReadingStep, TextStep
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import datetime

    from workbook.client.standing import Standing
    from workbook.wire.answer import Answer
    from workbook.wire.sheet import Reagent, Sheet, SheetId, Step

_STYLE = "".join(
    (files("workbook.front") / name).read_text(encoding="utf-8")
    for name in ("paper.css", "labreport.css")
)

#: Belt and braces: a page that may run nothing and fetch nothing.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"

#: Steps whose answers are data.
_READ = ReadingStep | OwnStep
_OWN_BENCH = "on the student's own bench"

_WAITS = Verdict(Outcome.NOT_JUDGED, "No verdict has come yet.")

_END = (
    "The words beside the results are the checker's; everything else was written by "
    "the student or stands on the student's sheet. This page is for reading: what is "
    "handed in is a file of its own."
)


@dataclass(frozen=True)
class _Done:
    """A step with its standing answer."""

    step: Step
    answer: Answer
    verdict: Verdict


def write_report(sheet: Sheet, standing: Standing, at: datetime) -> str:
    """
    Return the lab report of a sheet.

    Parameters
    ----------
    sheet : Sheet
        What the student was shown.
    standing : Standing
        What the student answered, and what was said of it.
    at : datetime
        When the report is written, with its time zone.

    Returns
    -------
    str
        A whole HTML document; everything that came from elsewhere is escaped.
    """
    body = "".join((_show_head(sheet, at), *_show_sections(sheet, standing)))
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>Lab report: {escape(sheet.title)}</title>\n"
        f"<style>\n{_STYLE}{_write_foot(sheet.id)}</style>\n</head>\n"
        f"<body><main>{body}<footer><p>{_END}</p></footer></main></body>\n</html>\n"
    )


def _show_head(sheet: Sheet, at: datetime) -> str:
    facts = (
        ("Student", sheet.id.student),
        ("Course", sheet.id.course),
        ("Lab", f"{sheet.id.lab}, revision {sheet.id.revision}"),
        ("Written", at.astimezone().strftime("%d %B %Y, %H:%M %Z")),
    )
    rows = "".join(f"<dt>{name}</dt><dd>{escape(fact)}</dd>" for name, fact in facts)
    return (
        f'<header><p class="kind">Lab report</p><h1>{escape(sheet.title)}</h1>'
        f"<p>{escape(sheet.about)}</p><dl>{rows}</dl></header>"
    )


def _show_sections(sheet: Sheet, standing: Standing) -> Iterator[str]:
    before = _gather(sheet.prelab, standing)
    after = _gather(sheet.postlab, standing)
    readings = [done for done in after if isinstance(done.step, _READ)]
    texts = [done for done in after if isinstance(done.step, TextStep)]
    working = [done for done in after if done not in readings and done not in texts]
    results = [done for done in working if result_of(done.answer)]
    givens = (f"{given.label}: {given.shown}" for given in sheet.givens)
    yield _section("Reactions", _list(sheet.equations))
    yield _section("Substances", _show_substances(sheet.reagents))
    yield _section("Given", _list(givens))
    yield _section("Before the lab", "".join(map(_show_block, before)))
    yield _section("Data", _show_readings(readings))
    yield _section("Working", "".join(map(_show_block, working)))
    yield _section("Results", _show_results(results))
    yield _section("Discussion", "".join(map(_show_block, texts)))
    yield _section("Not answered", _list(_find_open(sheet, standing)))
    yield _section("Conventions", _list(sheet.rules))


def _gather(steps: Iterable[Step], standing: Standing) -> list[_Done]:
    return [
        _Done(step, answer, standing.verdict(step.id) or _WAITS)
        for step in steps
        if (answer := standing.answers.get(step.id)) is not None
    ]


def _find_open(sheet: Sheet, standing: Standing) -> Iterator[str]:
    for step in (*sheet.prelab, *sheet.postlab):
        if step.id not in standing.answers:
            yield step.asks


def _section(title: str, body: str) -> str:
    return f"<section><h2>{title}</h2>{body}</section>" if body else ""


def _list(items: Iterable[str]) -> str:
    rows = "".join(f"<li>{escape(item)}</li>" for item in items)
    return f"<ul>{rows}</ul>" if rows else ""


def _show_substances(reagents: Iterable[Reagent]) -> str:
    rows = (
        (
            escape(reagent.name),
            show_formula(reagent.formula),
            "<br>".join(map(escape, reagent.data)),
        )
        for reagent in reagents
    )
    return show_table(("Substance", "Formula", "Data"), rows)


def _show_readings(readings: Iterable[_Done]) -> str:
    rows = (
        (
            escape(done.step.asks),
            _show_sight(done.step),
            _show_read(done.answer),
            _show_word(done.verdict),
        )
        for done in readings
        if isinstance(done.step, _READ)
    )
    return show_table(("Reading", "What was seen", "As read", "Checked"), rows)


def _show_sight(step: ReadingStep | OwnStep) -> str:
    if isinstance(step, OwnStep):
        return f"{escape(step.instrument)}<br>{_OWN_BENCH}"
    words = f"{escape(step.instrument)}<br>{escape(step.seen)}"
    if not step.picture:
        return words
    # As an image, so that nothing in it can run, or meet a name of another picture.
    address = f"data:image/svg+xml,{quote(step.picture)}"
    return f'<img src="{address}" alt="">{words}'


def _show_read(answer: Answer) -> str:
    """Show a reading as it was typed; of one's own bench, with what it was before."""
    if isinstance(answer, Noted):
        return show_text(answer)
    return show_typed(result_of(answer))


def _show_results(results: Iterable[_Done]) -> str:
    rows = (
        (
            escape(done.step.asks),
            show_typed(result_of(done.answer)),
            _show_word(done.verdict),
        )
        for done in results
    )
    return show_table(("Asked", "Result", "Checked"), rows)


def _show_word(verdict: Verdict) -> str:
    return f'<span class="word">{draw(verdict.outcome)}{WORDS[verdict.outcome]}</span>'


def _show_block(done: _Done) -> str:
    return (
        f"<article><h3>{escape(done.step.asks)}</h3>"
        f"{show_working(done.step, done.answer, done.verdict.at)}"
        f"{show_verdict(done.verdict, is_current=True)}</article>"
    )


def _write_foot(sheet: SheetId) -> str:
    """Return the style that prints whose page it is under each page."""
    name = "".join(map(_spell, f"{sheet.lab} · {sheet.student}"))
    return f'@page {{ @bottom-left {{ content: "{name}"; }} }}\n'


def _spell(character: str) -> str:
    """Return a character as a style sheet may hold it between quotes."""
    return character if character.isalnum() else f"\\{ord(character):x} "
