"""One honest sheet, judged: what else could have been answered is tried from here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.draw.visibility import CLEARANCE
from workbook.graph.compute import compute
from workbook.graph.slip import Slip, slips_of
from workbook.judge.band import widening
from workbook.judge.carried import half_place
from workbook.judge.judge import SheetJudge
from workbook.judge.typed import Typing, read_typed

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Quantity
    from workbook.judge.own import Own
    from workbook.labfile.half import Ask
    from workbook.rehearsal.paper import Paper
    from workbook.rehearsal.student import Student
    from workbook.wire.answer import Answer


class Seat:
    """
    A student with an honest paper, at the judge.

    Parameters
    ----------
    student : Student
        Without a mistake.
    """

    def __init__(self, student: Student) -> None:
        self.student = student
        self.paper: Paper = student.paper
        self.case = self.paper.case
        self.answers: Mapping[str, Answer] = student.answer_all()
        self.judge = SheetJudge(self.case, self.answers)
        self._values = {
            name: float(self.paper.carried(name)) for name in self.case.graph.quantities
        }

    def own(self, ask: Ask) -> Own:
        """
        Return where the student stands before a step.

        Parameters
        ----------
        ask : Ask
            One that asks for a quantity.

        Returns
        -------
        Own
            By the student's own answers, which are honest.
        """
        return self.judge.stands(ask.of or "")[1]

    def read(self, ask: Ask, text: str) -> Typing | None:
        """
        Return how the judge reads a text.

        Parameters
        ----------
        ask : Ask
            One that asks for a quantity.
        text : str
            As typed.

        Returns
        -------
        Typing or None
            None where it can't be read.
        """
        typing = read_typed(self.case, self._quantity(ask), text)
        return typing if isinstance(typing, Typing) else None

    def is_unseen(self, ask: Ask, typing: Typing) -> bool:
        """
        Tell whether a value lies too near to the right answer to show a mistake.

        Parameters
        ----------
        ask : Ask
            One that asks for a quantity.
        typing : Typing
            What was typed.

        Returns
        -------
        bool
            True within the clearance that the rules of fair draws keep.
        """
        own = self.own(ask)
        low, high = own.span.low - own.value, own.span.high - own.value
        extra = widening(self.case, self._quantity(ask), typing.value)
        off = typing.value - own.value
        return any(
            CLEARANCE * (low - way.half) - extra
            <= off
            <= CLEARANCE * (high + way.half) + extra
            for way in typing.ways
        )

    def is_inside(self, ask: Ask, slip: Slip) -> bool:
        """
        Tell whether a slip's value, typed as it should be, passes for right.

        Parameters
        ----------
        ask : Ask
            One that asks for a quantity.
        slip : Slip
            A mistake in it.

        Returns
        -------
        bool
            True where it lies in the band that the judge accepts.
        """
        own, quantity = self.own(ask), self._quantity(ask)
        value = compute(self.case.graph, slip.relation, self._values)
        extra = widening(self.case, quantity, value)
        return own.span.widened(half_place(own.known) + extra).holds(value)

    def find_twins(self, ask: Ask, slip: Slip, typing: Typing) -> list[str]:
        """
        Return the other sentences whose slips lead to the same value.

        Parameters
        ----------
        ask : Ask
            The step.
        slip : Slip
            The one that was made.
        typing : Typing
            What was typed.

        Returns
        -------
        list of str
            Kinds; a value that rounding could move there counts.
        """
        own = self.own(ask)
        share = (own.span.high - own.span.low) / 2 / abs(own.value)
        found = []
        for other in slips_of(self.case.graph, ask.of or ""):
            if other.sentence != slip.sentence:
                value = compute(self.case.graph, other.relation, self._values)
                if abs(value - typing.value) <= typing.half + share * abs(value):
                    found.append(other.kind.value)
        return found

    def _quantity(self, ask: Ask) -> Quantity:
        return self.case.graph.quantities[ask.of or ""]
