"""
Problem sets on paper: a sheet for each student or variant, and its answer book.

A set asks for any choice of a course's steps. Each sheet prints what its steps rest on:
what is given, what the instruments show as pictures, and the table of substances.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from importlib.resources import files
from typing import TYPE_CHECKING
from urllib.parse import quote

from markupsafe import Markup, escape

from workbook.errors import TaskError, nearest
from workbook.front.formula import show_formula
from workbook.graph.quantity import Origin
from workbook.labfile.form import TableForm
from workbook.measure.units import PERCENT
from workbook.relation.tree import names
from workbook.report.frame import fill_page
from workbook.report.side import Fact, Part, Task, lay_out
from workbook.report.space import measure_picture
from workbook.wire.sheet import VARIANT, ReadingStep

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Ask
    from workbook.labfile.roster import Student
    from workbook.report.side import Side
    from workbook.wire.sheet import Reagent, Sheet

#: Between the name of a lab and that of a step.
_SLASH = "/"

_BEFORE, _AFTER = "Before the lab", "After the lab"

#: Whom the usual cautions leave the word to.
DEFER = (
    "These are the usual cautions. The rules of your site, its safety data sheets and "
    "its licensed staff decide."
)

#: Our own, as it goes into the page.
_LAYOUT = Markup(  # noqa: S704 - a file of the package, no text of a person
    (files("workbook.report") / "paper.css").read_text(encoding="utf-8")
)


def _is_yield(graph: Graph, ask: Ask) -> bool:
    if ask.of is None:
        return False
    return graph.quantities[ask.of].unit.dimension == PERCENT.dimension


def _is_molar_mass(graph: Graph, ask: Ask) -> bool:
    del graph
    return (ask.of or "").endswith(".molar_mass")


def _asks_limiting(graph: Graph, ask: Ask) -> bool:
    return ask.id in graph.lab.key.limiting


#: What a drill can be about, and which steps belong to it.
SUBJECTS: Mapping[str, Callable[[Graph, Ask], bool]] = {
    "limiting-reagents": _asks_limiting,
    "molar-masses": _is_molar_mass,
    "percent-yields": _is_yield,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Problems:
    """What is asked of one student, side by side of paper."""

    student: Student
    #: The lab's.
    title: str
    sides: tuple[Side, ...]

    @property
    def numbers(self) -> dict[str, int]:
        """Return the number under which each step is asked."""
        tasks = (task for at in self.sides for task in (*at.readings, *at.tasks))
        return {task.step.id: task.number for task in tasks if task.number}


def choose_steps(
    graphs: Mapping[str, Graph], picks: Iterable[str], subject: str | None
) -> dict[str, tuple[str, ...]]:
    """
    Return which steps of which labs a set asks for.

    Parameters
    ----------
    graphs : mapping of str to Graph
        The labs of the course, by name.
    picks : iterable of str
        ``"lab"`` for all its steps, ``"lab/step"`` for one; none for all labs.
    subject : str or None
        One of `SUBJECTS`, to keep of them only what it is about.

    Returns
    -------
    dict of str to tuple of str
        By lab, in the order of the course; a lab without a step is left out.

    Raises
    ------
    TaskError
        If there is no such lab or step, or nothing is left.
    """
    wished = list(picks) or list(graphs)
    for pick in wished:
        _refuse_unknown(graphs, pick)
    chosen = {}
    for lab, graph in graphs.items():
        steps = tuple(
            ask.id
            for ask in graph.lab.public.asks
            if not {lab, f"{lab}{_SLASH}{ask.id}"}.isdisjoint(wished)
            and (subject is None or SUBJECTS[subject](graph, ask))
        )
        if steps:
            chosen[lab] = steps
    if not chosen:
        msg = f"No step of {', '.join(wished)} is about {subject}."
        raise TaskError(msg)
    return chosen


def _refuse_unknown(graphs: Mapping[str, Graph], pick: str) -> None:
    lab, slash, step = pick.partition(_SLASH)
    if lab not in graphs:
        msg = f"No lab {lab!r} is in the course.{nearest(lab, graphs)}"
        raise TaskError(msg)
    known = [ask.id for ask in graphs[lab].lab.public.asks]
    if slash and step not in known:
        msg = f"{lab!r} has no step {step!r}.{nearest(step, known)}"
        raise TaskError(msg)


def find_sources(graph: Graph, steps: Iterable[str]) -> frozenset[str]:
    """
    Return the givens and readings that some steps rest on.

    Parameters
    ----------
    graph : Graph
        The lab.
    steps : iterable of str
        Its steps.

    Returns
    -------
    frozenset of str
        Quantities that a page must show.
    """
    wanted = set(steps)
    asks = (ask for ask in graph.lab.public.asks if ask.id in wanted)
    waiting = [name for ask in asks for name in _list_asked(graph, ask)]
    seen: set[str] = set()
    while waiting:
        name = waiting.pop()
        quantity = graph.quantities[name]
        if name in seen:
            continue
        seen.add(name)
        if quantity.origin is Origin.DERIVED and quantity.relation is not None:
            waiting += names(quantity.relation)
    shown = {Origin.GIVEN, Origin.READING}
    return frozenset(n for n in seen if graph.quantities[n].origin in shown)


def _list_asked(graph: Graph, ask: Ask) -> Iterator[str]:
    if ask.of is not None:
        yield ask.of
    if isinstance(ask.form, TableForm):
        yield from (cell.of for cell in ask.form.cells)
    yield from graph.lab.key.limiting.get(ask.id, {}).values()


def set_problems(
    student: Student, sheet: Sheet, graph: Graph, steps: Sequence[str]
) -> Problems:
    """
    Return what one student is asked.

    Parameters
    ----------
    student : Student
        Whose paper it is.
    sheet : Sheet
        The student's copy of the lab, the readings shown.
    graph : Graph
        The lab.
    steps : sequence of str
        What is asked.

    Returns
    -------
    Problems
        A reading that is needed is shown, whether it is asked for or not.
    """
    before = [step for step in sheet.prelab if step.id in steps]
    after = [step for step in sheet.postlab if step.id in steps]
    numbers = {step.id: n for n, step in enumerate((*before, *after), start=1)}
    parts = [
        _tell_part(name, sheet, graph, {s.id: numbers[s.id] for s in asked})
        for name, asked in ((_BEFORE, before), (_AFTER, after))
        if asked
    ]
    parts[0] = replace(parts[0], facts=(*_tell_lab(sheet), *parts[0].facts))
    whole = _tell_part("", sheet, graph, numbers)
    whole = replace(whole, facts=(*_tell_lab(sheet), *whole.facts))
    return Problems(student=student, sides=lay_out(whole, parts), title=sheet.title)


def _tell_lab(sheet: Sheet) -> Iterator[Fact]:
    if sheet.equations:
        yield Fact("Reactions", sheet.equations, runs=True)
    if sheet.reagents:
        yield Fact("Substances", tuple(map(_tell_reagent, sheet.reagents)), runs=True)
    if sheet.rules:
        yield Fact("Numbers", (" ".join(sheet.rules),))


def _tell_reagent(reagent: Reagent) -> Markup:
    told = escape(reagent.name)
    if reagent.formula:
        shown = Markup(show_formula(reagent.formula))  # noqa: S704 - it escapes
        told += Markup(", {}").format(shown)
    return (
        told + Markup(": {}").format("; ".join(reagent.data)) if reagent.data else told
    )


def _tell_part(
    name: str, sheet: Sheet, graph: Graph, numbers: Mapping[str, int]
) -> Part:
    sources = find_sources(graph, numbers)
    tasks = [
        Task(step, numbers.get(step.id, 0))
        for step in (*sheet.prelab, *sheet.postlab)
        if step.id in numbers or (isinstance(step, ReadingStep) and step.id in sources)
    ]
    givens = tuple(
        f"{given.label}: {given.shown}"
        for given in sheet.givens
        if given.id in sources or given.id == VARIANT
    )
    facts = [Fact("Given", givens, runs=True)] if givens else []
    if not {step.id for step in sheet.prelab}.isdisjoint(numbers):
        facts.append(Fact("Cautions", (*sheet.cautions, DEFER)))
    return Part(name=name, facts=tuple(facts), tasks=tuple(tasks))


def print_papers(title: str, papers: Sequence[Problems]) -> bytes:
    """
    Return problems as an HTML page that prints each student a sheet of paper.

    Parameters
    ----------
    title : str
        What stands over it.
    papers : sequence of Problems
        In the order of printing.

    Returns
    -------
    bytes
        HTML in UTF-8, without a hidden value or an answer. Where one fills both sides
        of a sheet, whoever needs fewer leaves theirs empty, so that nobody's problems
        stand on the back of another's.
    """
    content = {
        "title": title,
        "papers": papers,
        "sides": count_sides(papers),
        "width": lambda step: measure_picture(step)[0],
        "layout": _LAYOUT,
        "address": _address,
    }
    return fill_page("paper.html", content)


def count_sides(papers: Sequence[Problems]) -> int:
    """
    Return how many sides each student's paper has, the empty ones among them.

    Parameters
    ----------
    papers : sequence of Problems
        Those that are printed together.

    Returns
    -------
    int
        One, or whole sheets of two.
    """
    most = max((len(paper.sides) for paper in papers), default=0)
    return most if most <= 1 else most + most % 2


def _address(step: ReadingStep) -> str:
    return f"data:image/svg+xml,{quote(step.picture)}" if step.picture else ""
