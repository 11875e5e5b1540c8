"""What else could be answered to a step of an honest sheet: slips, guesses, typos."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.judge.band import widening
from workbook.judge.table import spread
from workbook.measure.figures import Known
from workbook.rehearsal.guess import chance_of_right, guess
from workbook.rehearsal.handwriting import write_down
from workbook.rehearsal.typist import mistype
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    import random

    from workbook.graph.slip import Slip
    from workbook.labfile.half import Ask
    from workbook.rehearsal.register import Register
    from workbook.rehearsal.seat import Seat


class Attempts:
    """
    Single attempts from an honest seat.

    Parameters
    ----------
    seat : Seat
        The rest of the sheet.
    register : Register
        Where they are counted.
    chance : random.Random
        Decides what is guessed and mistyped.
    """

    def __init__(self, seat: Seat, register: Register, chance: random.Random) -> None:
        self._seat = seat
        self._register = register
        self._tally = register.tally
        self._chance = chance

    def try_slip(self, ask: Ask, slip: Slip) -> None:
        """
        Make one slip in one step.

        Parameters
        ----------
        ask : Ask
            The step.
        slip : Slip
            The mistake; where it has no value, nothing is tried.
        """
        seat = self._seat
        try:
            known = seat.paper.work_out(slip.relation)
        except ArithmeticError:
            return
        answer = seat.student.answer(ask, known)
        typing = seat.read(ask, answer.text)
        if typing is None:
            return
        judged = answer, seat.judge.retry(ask, answer)
        self._register.judged(*judged)
        is_unseen = seat.is_unseen(ask, typing)
        twins = [] if is_unseen else seat.find_twins(ask, slip, typing)
        self._tally.unseen.add(is_hit=is_unseen)
        self._tally.twins.add(is_hit=bool(twins))
        is_shown = not is_unseen and not twins
        made = slip.kind, slip.sentence
        self._register.expect_named(ask, made, judged, is_shown=is_shown)
        kind = slip.kind.value
        if is_unseen:
            self._register.miss("unseen", ask.id, kind, judged)
        for twin in twins:
            self._register.miss("twins", ask.id, f"{kind} = {twin}", judged)
        if ask.kind in {"chain", "algebra"}:
            self._show(ask, slip, answer.text)

    def _show(self, ask: Ask, slip: Slip, text: str) -> None:
        """Make the slip in the chain or in the lines, where they can hold it."""
        answer = self._seat.student.answer_wrongly(ask, text, slip.relation)
        if answer is None:
            return
        verdict = self._seat.judge.retry(ask, answer)
        self._register.judged(answer, verdict)
        is_told = verdict.at is not None or words.CHAIN_MISSING in verdict.sentence
        is_told = is_told and verdict.method_holds is False
        self._tally.shown.add(is_hit=is_told)
        if not is_told:
            judged = answer, verdict
            self._register.miss("working", ask.id, slip.kind.value, judged)

    def guess(self, ask: Ask) -> None:
        """
        Type a plausible number that was not worked out.

        Parameters
        ----------
        ask : Ask
            The step; where the right value is nothing, nothing is tried.
        """
        seat, own = self._seat, self._seat.own(ask)
        if not own.value:
            return
        quantity = seat.case.graph.quantities[ask.of or ""]
        value = seat.paper.in_own_unit(quantity, Known(guess(own, self._chance), None))
        comma = seat.case.convention.comma
        text = write_down(value, quantity.unit, comma, self._chance)
        answer = seat.student.answer_with(ask, text)
        verdict = seat.judge.retry(ask, answer)
        self._register.judged(answer, verdict)
        is_named = verdict.outcome is Outcome.SLIP
        self._tally.guesses_named.add(is_hit=is_named)
        self._tally.guesses_right.add(is_hit=verdict.value_holds)
        extra = widening(seat.case, quantity, own.value)
        self._tally.guesses_expected += chance_of_right(own, extra)
        if is_named:
            said = verdict.sentence
            self._register.miss("guess named", ask.id, said, (answer, verdict))

    def mistype(self, ask: Ask) -> None:
        """
        Type the honest answer with a slip of the fingers.

        Parameters
        ----------
        ask : Ask
            The step.
        """
        seat = self._seat
        answers = spread(seat.case.graph.lab.public.asks, seat.answers)
        right = getattr(answers[ask.id], "text", "")
        text = mistype(right, self._chance)
        if text == right:
            return
        answer = seat.student.answer_with(ask, text)
        verdict = seat.judge.retry(ask, answer)
        self._register.judged(answer, verdict)
        self._tally.typing_named.add(is_hit=verdict.outcome is Outcome.SLIP)
        self._tally.typing_no_try.add(is_hit=verdict.outcome in NO_ATTEMPT)
        self._tally.typing_right.add(is_hit=verdict.value_holds)
