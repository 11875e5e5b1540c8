"""
A class that never was: honest students, slips, typing errors and guesses, judged.

The judge is the one that marks hand-ins. Of a student it is told what a student types,
and nothing else.
"""

from __future__ import annotations

import random
from itertools import cycle
from typing import TYPE_CHECKING

from workbook.draw.fairness import never_seen
from workbook.draw.visibility import asked_quantities
from workbook.graph.slip import slips_of
from workbook.judge import words
from workbook.judge.band import widening
from workbook.judge.judge import judge_sheet
from workbook.judge.stand import is_possible
from workbook.judge.table import list_cells, spread
from workbook.labfile.form import TableForm
from workbook.measure.figures import Known
from workbook.rehearsal.guess import chance_of_right, guess
from workbook.rehearsal.habit import EXACT, draw_habit
from workbook.rehearsal.handwriting import write_down
from workbook.rehearsal.leak import find_numbers
from workbook.rehearsal.paper import Paper
from workbook.rehearsal.seat import Seat
from workbook.rehearsal.student import Student
from workbook.rehearsal.tally import Tally
from workbook.rehearsal.typist import mistype
from workbook.relation.tree import names
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Graph
    from workbook.graph.slip import Slip
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask
    from workbook.rehearsal.habit import Habit
    from workbook.wire.answer import Answer
    from workbook.wire.verdict import Verdict

#: Slips and typing errors that are tried on one honest sheet [-].
_SLIPS, _TYPOS = 60, 10

#: What is said before any value is looked at.
_UNREAD = frozenset({Outcome.UNREAD, Outcome.ASKED, Outcome.DIMENSION})

#: What tells that a value holds, or that nothing came to it.
_WRONG = frozenset({Outcome.WRONG, Outcome.SLIP, Outcome.DIMENSION, Outcome.FOLLOWS})


class Classroom:
    """
    Everybody who could sit a lab, at the judge.

    Parameters
    ----------
    graph : Graph
        The lab.
    seed : int
        Of all chance: the same seed gives the same class [-].
    """

    def __init__(self, graph: Graph, seed: int) -> None:
        self.tally = Tally()
        self._graph = graph
        self._chance = random.Random(seed)  # noqa: S311 - a rehearsal hides nothing
        public = graph.lab.public
        asks = {ask.of: ask for ask in public.asks} | list_cells(public.asks)
        self._asks = [asks[name] for name in asked_quantities(graph)]
        self._made = [
            (ask, slip) for ask in self._asks for slip in slips_of(graph, ask.of or "")
        ]
        self._never = never_seen(graph)
        self._chance.shuffle(self._made)
        self._turns = cycle(self._made)

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
        self._try_slips(seat)
        self._try_guesses(seat)
        self._try_typos(seat)
        self._carry_on(case, 1)
        self._carry_on(case, 2)

    def _honest(self, case: Case, habit: Habit) -> Seat:
        paper = Paper(case, habit, self._chance, {})
        seat = Seat(Student(paper, self._chance))
        for ask in self._graph.lab.public.asks:
            if ask.id in seat.answers:
                self._expect_right(
                    ask, seat.answers[ask.id], seat.judge.verdicts[ask.id]
                )
        return seat

    def _expect_right(self, ask: Ask, answer: Answer, verdict: Verdict) -> None:
        self._judged(answer, verdict)
        is_wrong = verdict.outcome in _WRONG | NO_ATTEMPT or not verdict.value_holds
        is_wrong = is_wrong or verdict.method_holds is False
        self.tally.honest_wrong.add(is_hit=is_wrong)
        if is_wrong:
            what = verdict.outcome.value
            self.tally.miss("honest", ask.id, what, _example(answer, verdict))

    def _judged(self, answer: Answer, verdict: Verdict) -> None:
        """Count an attempt, and look whether its sentence tells a number."""
        self.tally.attempts += 1
        # Whoever only reads a text knows nothing of the key.
        is_read = verdict.outcome not in _UNREAD
        told = is_read and find_numbers(self._graph, verdict.sentence, repr(answer))
        self.tally.leaks.add(is_hit=bool(told))
        if told:
            example = _example(answer, verdict)
            self.tally.miss("number told", "", " ".join(told), example)

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

    def _try_slips(self, seat: Seat) -> None:
        for _, (ask, slip) in zip(range(_SLIPS), self._turns, strict=False):
            self._try_slip(seat, ask, slip)

    def _try_slip(self, seat: Seat, ask: Ask, slip: Slip) -> None:
        """Make one slip in one step of an honest sheet."""
        try:
            known = seat.paper.work_out(slip.relation)
        except ArithmeticError:
            return
        answer = seat.student.answer(ask, known)
        typing = seat.read(ask, answer.text)
        if typing is None:
            return
        verdict = seat.judge.retry(ask, answer)
        self._judged(answer, verdict)
        is_unseen = seat.is_unseen(ask, typing)
        twins = [] if is_unseen else seat.find_twins(ask, slip, typing)
        self.tally.unseen.add(is_hit=is_unseen)
        self.tally.twins.add(is_hit=bool(twins))
        self._name(ask, slip, (answer, verdict), is_shown=not is_unseen and not twins)
        if ask.kind in {"chain", "algebra"}:
            self._show(seat, ask, slip, answer.text)
        if is_unseen:
            kind = slip.kind.value
            self.tally.miss("unseen", ask.id, kind, _example(answer, verdict))
        for twin in twins:
            pair = f"{slip.kind.value} = {twin}"
            self.tally.miss("twins", ask.id, pair, _example(answer, verdict))

    def _show(self, seat: Seat, ask: Ask, slip: Slip, text: str) -> None:
        """Make the slip in the chain or in the lines, where they can hold it."""
        answer = seat.student.answer_wrongly(ask, text, slip.relation)
        if answer is None:
            return
        verdict = seat.judge.retry(ask, answer)
        self._judged(answer, verdict)
        is_told = verdict.at is not None or words.CHAIN_MISSING in verdict.sentence
        is_told = is_told and verdict.method_holds is False
        self.tally.shown.add(is_hit=is_told)
        if not is_told:
            example = f"{answer!r}: {verdict.sentence}"
            self.tally.miss("working", ask.id, slip.kind.value, example)

    def _name(
        self, ask: Ask, slip: Slip, judged: tuple[Answer, Verdict], *, is_shown: bool
    ) -> None:
        answer, verdict = judged
        is_named = verdict.outcome is Outcome.SLIP
        is_right = is_named and slip.sentence in verdict.sentence
        self.tally.misnamed.add(is_hit=is_named and not is_right)
        kind, example = slip.kind.value, _example(answer, verdict)
        if is_named and not is_right:
            self.tally.miss("named wrongly", ask.id, kind, example)
        if is_shown:
            self.tally.named.add(is_hit=is_right)
            if not is_named:
                self.tally.miss("not named", ask.id, kind, example)

    def _try_guesses(self, seat: Seat) -> None:
        for ask in self._asks:
            own = seat.own(ask)
            if not own.value:
                continue
            known = Known(guess(own, self._chance), None)
            quantity = self._graph.quantities[ask.of or ""]
            answer = seat.student.answer_with(ask, self._type(seat, ask, known))
            verdict = seat.judge.retry(ask, answer)
            self._judged(answer, verdict)
            is_named = verdict.outcome is Outcome.SLIP
            self.tally.guesses_named.add(is_hit=is_named)
            if is_named:
                self.tally.miss("guess named", ask.id, verdict.sentence, answer.text)
            self.tally.guesses_right.add(is_hit=verdict.value_holds)
            extra = widening(seat.case, quantity, own.value)
            self.tally.guesses_expected += chance_of_right(own, extra)

    def _type(self, seat: Seat, ask: Ask, known: Known) -> str:
        quantity = self._graph.quantities[ask.of or ""]
        comma = seat.case.convention.comma
        value = seat.paper.in_own_unit(quantity, known)
        return write_down(value, quantity.unit, comma, self._chance)

    def _try_typos(self, seat: Seat) -> None:
        answers = spread(self._graph.lab.public.asks, seat.answers)
        for ask in self._chance.choices(self._asks, k=_TYPOS):
            right = getattr(answers[ask.id], "text", "")
            text = mistype(right, self._chance)
            if text == right:
                continue
            answer = seat.student.answer_with(ask, text)
            verdict = seat.judge.retry(ask, answer)
            self._judged(answer, verdict)
            self.tally.typing_named.add(is_hit=verdict.outcome is Outcome.SLIP)
            self.tally.typing_no_try.add(is_hit=verdict.outcome in NO_ATTEMPT)
            self.tally.typing_right.add(is_hit=verdict.value_holds)

    def _carry_on(self, case: Case, count: int) -> None:
        """Answer a whole sheet with so many slips, and go on from each honestly."""
        made = {
            ask.of or "": slip
            for ask, slip in self._chance.choices(self._made, k=count)
        }
        mistakes = {name: slip.relation for name, slip in made.items()}
        try:
            habit = draw_habit(self._chance)
            paper = Paper(case, habit, self._chance, mistakes)
        except ArithmeticError:
            return
        answers = Student(paper, self._chance).answer_all()
        verdicts = judge_sheet(case, answers)
        for ask in self._graph.lab.public.asks:
            if ask.id not in verdicts:
                continue
            answer, verdict = answers[ask.id], verdicts[ask.id]
            if not _asks_for(ask) & made.keys():
                self._follow(ask, (answer, verdict), paper, frozenset(made))
            else:
                self._judged(answer, verdict)
                if count > 1 and ask.of is not None:
                    is_named = verdict.outcome is Outcome.SLIP
                    is_right = is_named and made[ask.of].sentence in verdict.sentence
                    self.tally.second_named.add(is_hit=is_right)
                    self.tally.second_misnamed.add(is_hit=is_named and not is_right)

    def _follow(
        self,
        ask: Ask,
        judged: tuple[Answer, Verdict],
        paper: Paper,
        made: frozenset[str],
    ) -> None:
        """Count a step that is right by the student's own values."""
        answer, verdict = judged
        behind = set(self._behind(ask))
        if not behind & made:
            self._expect_right(ask, answer, verdict)
            return
        self._judged(answer, verdict)
        if not all(self._could_be(name, paper) for name in behind):
            self.tally.stopped += 1
            return
        earns = verdict.value_holds and verdict.method_holds is not False
        self.tally.followed.add(is_hit=earns)
        if not earns:
            slips = " ".join(sorted(behind & made))
            example = _example(answer, verdict)
            self.tally.miss("not followed", ask.id, slips, example)

    def _could_be(self, name: str, paper: Paper) -> bool:
        quantity = self._graph.quantities[name]
        value, true = float(paper.carried(name)), paper.case.values[name]
        return is_possible(quantity, value, true)

    def _behind(self, ask: Ask) -> Iterator[str]:
        """Give every asked quantity that a step rests on."""
        asked = {each.of for each in self._asks}
        waiting = list(self._graph.lab.key.limiting.get(ask.id, {}).values())
        relation = self._graph.quantities[ask.of].relation if ask.of else None
        waiting += names(relation) if relation is not None else ()
        seen: set[str] = set()
        while waiting:
            name = waiting.pop()
            inner = self._graph.quantities[name]
            if name in seen or (inner.instrument is not None):
                continue
            seen.add(name)
            if name in asked:
                yield name
            waiting += names(inner.relation) if inner.relation is not None else ()


def _asks_for(ask: Ask) -> set[str]:
    """Return the quantities that a step asks for: several in a table."""
    cells = ask.form.cells if isinstance(ask.form, TableForm) else ()
    return {cell.of for cell in cells} | ({ask.of} if ask.of else set())


def _example(answer: Answer, verdict: Verdict) -> str:
    typed = getattr(answer, "text", None) or repr(answer)
    return f"{typed!r}: {verdict.sentence}"
