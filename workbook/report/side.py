"""What stands on a side of paper: what is shown, what is asked, and room to write."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from markupsafe import Markup

from workbook.report.space import (
    ACROSS,
    LINE,
    balance,
    count_lines,
    measure_reading,
    measure_step,
)
from workbook.wire.sheet import (
    AlgebraStep,
    ChainStep,
    ChoiceStep,
    MatchingStep,
    MechanismStep,
    NumberStep,
    OrderStep,
    PredictionStep,
    RangeStep,
    ReadingStep,
    TextStep,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from workbook.wire.sheet import Step

#: What is within the margins of a page of Letter, the shorter of the two papers, but
#: for a little, since it is reckoned and not measured [mm].
_PAGE = 264.0

#: The head of a page, and the gaps between its parts [mm].
_AROUND = 20.0

#: Columns of instruments, and of tasks.
_SHELF, _COLUMNS = 4, 2

#: From line to line, where a hand writes, from close to wide [mm].
_ROOMS = tuple(room / 2 for room in range(12, 21))

#: What to do with what is printed, where that is not a number or a text.
_TODO: Mapping[type, str] = {
    OrderStep: "Number them.",
    MechanismStep: "Number those that belong.",
    PredictionStep: "Tick one.",
}

#: Lines to write on, where every step of the kind has the same.
_LINES: Mapping[type, int] = {AlgebraStep: 5, ChainStep: 3, NumberStep: 2, RangeStep: 1}


@dataclass(frozen=True, slots=True)
class Task:
    """A step as it is printed."""

    step: Step
    #: Its number on the paper; 0 for a reading that is shown and not asked for.
    number: int
    #: How high it is printed, without room to work it out [mm].
    bare: float = field(init=False)

    def __post_init__(self) -> None:
        """Measure once what is asked for often."""
        if isinstance(self.step, ReadingStep):
            bare = measure_reading(self.step)
        else:
            bare = measure_step(self.step, self.todo)
        object.__setattr__(self, "bare", bare)

    @property
    def todo(self) -> str:
        """Return what to do with what is printed; empty where the question says it."""
        if isinstance(self.step, ChoiceStep):
            return "Tick each that applies." if self.step.several else "Tick one."
        if isinstance(self.step, MatchingStep):
            wanted = "the letters of all" if self.step.several else "the letter of one"
            return f"Write {wanted}."
        return _TODO.get(type(self.step), "")

    @property
    def lines(self) -> int:
        """Return how many lines there are to write on."""
        if isinstance(self.step, TextStep):
            return 2 + len(self.step.prompts)
        return _LINES.get(type(self.step), 0)


@dataclass(frozen=True, slots=True)
class Fact:
    """What is told at the head of a side, under one word."""

    head: str
    #: As printed; a formula is markup.
    texts: tuple[str, ...]
    #: True when the texts stand in one paragraph.
    runs: bool = False

    @property
    def lines(self) -> int:
        """Return how many lines it takes."""
        texts = [t.striptags() if isinstance(t, Markup) else t for t in self.texts]
        told = ("   ".join(texts),) if self.runs else texts
        return sum(count_lines(text, ACROSS) for text in told)


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One side of a student's sheet of paper."""

    #: Which part of the lab it is, where the other stands elsewhere.
    part: str
    facts: tuple[Fact, ...]
    #: From line to line, where a hand writes [mm].
    line: float
    #: Instruments to read, asked for or only needed.
    readings: tuple[Task, ...] = ()
    tasks: tuple[Task, ...] = ()

    @property
    def height(self) -> float:
        """Return how much of a page is filled [mm]."""
        tasks = [task.bare + task.lines * self.line for task in self.tasks]
        readings = [task.bare for task in self.readings]
        told = sum(fact.lines for fact in self.facts) * LINE
        return _AROUND + told + balance(readings, _SHELF) + balance(tasks, _COLUMNS)

    def add(self, task: Task) -> Side:
        """
        Return the side with one more task, or instrument, on it.

        Parameters
        ----------
        task : Task
            What comes next.

        Returns
        -------
        Side
            It may be higher than a page.
        """
        if isinstance(task.step, ReadingStep):
            return replace(self, readings=(*self.readings, task))
        return replace(self, tasks=(*self.tasks, task))


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What is asked before the lab, or after it, with all that it rests on."""

    name: str
    facts: tuple[Fact, ...]
    tasks: tuple[Task, ...]


def lay_out(whole: Part, parts: Sequence[Part]) -> tuple[Side, ...]:
    """
    Return the sides of paper that are filled.

    Parameters
    ----------
    whole : Part
        All that is asked of a student.
    parts : sequence of Part
        The same, as what is done before the lab and after it.

    Returns
    -------
    tuple of Side
        One, where all fits; else each part begins a side of its own, unless that takes
        more sheets of paper. What is left of a page is room to write.
    """
    running = tuple(_spread(whole))
    apart = tuple(_join(side for part in parts for side in _spread(part)))
    saves = _count_sheets(running) < _count_sheets(apart)
    return running if saves or len(running) == 1 else apart


def _spread(part: Part) -> list[Side]:
    """Fill as few sides as can be, and leave as much room to write as those have."""
    sides = _fill(part, _ROOMS[0])
    for room in _ROOMS[1:]:
        roomier = _fill(part, room)
        if len(roomier) > len(sides):
            break
        sides = roomier
    return sides


def _count_sheets(sides: Sequence[Side]) -> int:
    return (len(sides) + 1) // 2


def _join(sides: Iterable[Side]) -> Iterator[Side]:
    """Pass sides on, but show no instrument again that was shown before."""
    shown: set[str] = set()
    for side in sides:
        readings = [at for at in side.readings if at.number or at.step.id not in shown]
        shown |= {at.step.id for at in readings}
        yield replace(side, readings=tuple(readings))


def _fill(part: Part, room: float) -> list[Side]:
    sides = [Side(part=part.name, facts=part.facts, line=room)]
    for task in part.tasks:
        fuller = sides[-1].add(task)
        is_begun = bool(sides[-1].readings or sides[-1].tasks)
        if is_begun and fuller.height > _PAGE:
            sides.append(Side(part=part.name, facts=(), line=room).add(task))
        else:
            sides[-1] = fuller
    return sides
