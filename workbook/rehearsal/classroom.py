"""
A class that never was: honest students, slips, typing errors and guesses, judged.

The judge is the one that marks hand-ins. Of a student it is told what a student types,
and nothing else.
"""

from __future__ import annotations

import random
from itertools import cycle, islice
from typing import TYPE_CHECKING

from workbook.draw.fairness import never_seen
from workbook.draw.visibility import asked_quantities
from workbook.graph.slip import slips_of
from workbook.judge.table import list_cells
from workbook.rehearsal.attempt import Attempts
from workbook.rehearsal.eyesight import misread
from workbook.rehearsal.habit import EXACT, draw_habit
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.register import Register
from workbook.rehearsal.seat import Seat
from workbook.rehearsal.sequel import Sequel
from workbook.rehearsal.student import Student

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.judge.case import Case
    from workbook.rehearsal.habit import Habit
    from workbook.rehearsal.tally import Tally

#: Slips and typing errors that are tried on one honest sheet [-].
_SLIPS, _TYPOS = 60, 10


class Classroom:
    """
    Everybody who could sit a lab, at the judge.

    Parameters
    ----------
    graph : Graph
        The lab.
    seed : int
        Of all chance: the same seed gives the same class [-].
    tally : Tally, optional
        Where its figures are counted; a new one if there is none yet.
    """

    def __init__(self, graph: Graph, seed: int, tally: Tally | None = None) -> None:
        self._graph = graph
        self._register = Register(graph, tally)
        self._chance = random.Random(seed)  # noqa: S311 - a rehearsal hides nothing
        public = graph.lab.public
        asks = {ask.of: ask for ask in public.asks} | list_cells(public.asks)
        self._asks = [asks[name] for name in asked_quantities(graph)]
        self._readings = [ask for ask in public.asks if ask.kind == "reading"]
        self._made = [
            (ask, slip) for ask in self._asks for slip in slips_of(graph, ask.of or "")
        ]
        self._never = never_seen(graph)
        self._chance.shuffle(self._made)
        self._turns = cycle(self._made)

    @property
    def tally(self) -> Tally:
        """The figures so far."""
        return self._register.tally

    def sit(self, case: Case) -> None:
        """
        Let one of each kind of student answer a copy of the lab.

        Parameters
        ----------
        case : Case
            A copy that was drawn.
        """
        self._try_variant(self._honest(case, EXACT))
        seat = self._honest(case, draw_habit(self._chance))
        attempts = Attempts(seat, self._register, self._chance)
        for ask, slip in islice(self._turns, _SLIPS):
            attempts.try_slip(ask, slip)
        for ask in self._readings:
            misread(seat, ask, self._register, self._chance)
        self._guess(attempts, 1)
        for ask in self._chance.choices(self._asks, k=_TYPOS):
            attempts.mistype(ask)
        for count in (1, 2):
            drawn = self._chance.choices(self._made, k=count)
            made = {ask.of or "": slip for ask, slip in drawn}
            Sequel(case, made, self._register).answer(self._chance)

    def guess(self, case: Case, times: int) -> None:
        """
        Let somebody only guess at a copy of the lab.

        Parameters
        ----------
        case : Case
            A copy that was drawn.
        times : int
            Guesses at each step [-].
        """
        seat = self._honest(case, draw_habit(self._chance))
        self._guess(Attempts(seat, self._register, self._chance), times)

    def _guess(self, attempts: Attempts, times: int) -> None:
        for ask in (*self._asks, *self._readings):
            for _ in range(times):
                attempts.guess(ask)

    def _honest(self, case: Case, habit: Habit) -> Seat:
        paper = Paper(case, habit, self._chance, {})
        seat = Seat(Student(paper, self._chance))
        for ask in self._graph.lab.public.asks:
            if ask.id in seat.answers:
                verdict = seat.judge.verdicts[ask.id]
                self._register.expect_right(ask, seat.answers[ask.id], verdict)
        return seat

    def _try_variant(self, seat: Seat) -> None:
        """Look whether a slip that this lab can show lies in the band of the right."""
        inside = [
            (ask, slip)
            for ask, slip in self._made
            if (ask.of, slip.relation) not in self._never and seat.is_inside(ask, slip)
        ]
        self.tally.variants_inside.add(is_hit=bool(inside))
        for ask, slip in inside:
            self.tally.miss("inside", ask.id, slip.kind.value, slip.sentence)
