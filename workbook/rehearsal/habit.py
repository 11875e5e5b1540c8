"""How one simulated student works: every habit here is a sane one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.matter.elements import TABLES
from workbook.measure.rounding import Ties

if TYPE_CHECKING:
    import random

#: Digits of a calculator's display [-].
DISPLAY = 10


@dataclass(frozen=True, slots=True)
class Habit:
    """How one student rounds, reads, and looks up."""

    #: Figures that each answer is rounded to; `DISPLAY` for all.
    figures: int
    #: Further figures that are carried on: 0 if the typed value is used further, 1 if
    #: one more figure is kept, `DISPLAY` if nothing is rounded.
    guard: int
    #: True if what is worked out within a step is rounded before it is used.
    rounds_on_the_way: bool
    ties: Ties
    #: The table of atomic weights from which molar masses are summed; None if they
    #: are taken as the sheet prints them.
    table: str | None
    #: True if scales are read one last digit too high or too low, now and then.
    misreads: bool


#: Who rounds nothing, reads what is there, and takes molar masses from the sheet.
EXACT = Habit(
    figures=DISPLAY,
    guard=DISPLAY,
    rounds_on_the_way=False,
    ties=Ties.EVEN,
    table=None,
    misreads=False,
)


def draw_habit(chance: random.Random) -> Habit:
    """
    Return a habit at random.

    Parameters
    ----------
    chance : random.Random
        Where chance comes from.

    Returns
    -------
    Habit
        Each of its sides is drawn by itself.
    """
    return Habit(
        figures=chance.choice([3, 4, DISPLAY]),
        guard=chance.choice([0, 1, DISPLAY]),
        rounds_on_the_way=chance.random() < 0.5,  # noqa: PLR2004 - a coin
        ties=chance.choice(list(Ties)),
        table=chance.choice([*TABLES, None]),
        misreads=chance.random() < 0.5,  # noqa: PLR2004 - a coin
    )
