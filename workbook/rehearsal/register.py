"""Where verdicts of a rehearsal are counted, and what was missed is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.rehearsal.leak import find_numbers
from workbook.rehearsal.tally import Tally
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.graph.slip import SlipKind
    from workbook.labfile.half import Ask
    from workbook.wire.answer import Answer
    from workbook.wire.verdict import Verdict

#: What is said before any value is looked at.
_UNREAD = frozenset({Outcome.UNREAD, Outcome.ASKED, Outcome.DIMENSION})

#: What an honest answer never gets.
_WRONG = NO_ATTEMPT | {
    Outcome.WRONG,
    Outcome.SLIP,
    Outcome.DIMENSION,
    Outcome.FOLLOWS,
}


class Register:
    """
    The verdicts on a simulated class.

    Parameters
    ----------
    graph : Graph
        The lab.
    tally : Tally, optional
        Where it is counted; a new one if there is none yet.
    """

    def __init__(self, graph: Graph, tally: Tally | None = None) -> None:
        self.tally = tally or Tally()
        self._graph = graph

    def judged(self, answer: Answer, verdict: Verdict) -> None:
        """
        Count an attempt, and look whether its sentence tells a number.

        Parameters
        ----------
        answer : Answer
            What was typed.
        verdict : Verdict
            What is said of it.
        """
        self.tally.attempts += 1
        # Whoever only reads a text knows nothing of the key.
        is_read = verdict.outcome not in _UNREAD
        told = is_read and find_numbers(self._graph, verdict.sentence, repr(answer))
        self.tally.leaks.add(is_hit=bool(told))
        if told:
            self.miss("number told", "", " ".join(told), (answer, verdict))

    def expect_right(self, ask: Ask, answer: Answer, verdict: Verdict) -> None:
        """
        Count an honest attempt.

        Parameters
        ----------
        ask : Ask
            The step.
        answer : Answer
            What was typed.
        verdict : Verdict
            What is said of it.
        """
        self.judged(answer, verdict)
        is_wrong = verdict.outcome in _WRONG or not verdict.value_holds
        is_wrong = is_wrong or verdict.method_holds is False
        self.tally.honest_wrong.add(is_hit=is_wrong)
        if is_wrong:
            self.miss("honest", ask.id, verdict.outcome.value, (answer, verdict))

    def expect_named(
        self,
        ask: Ask,
        made: tuple[SlipKind, str],
        judged: tuple[Answer, Verdict],
        *,
        is_shown: bool,
    ) -> None:
        """
        Count whether a slip was named.

        Parameters
        ----------
        ask : Ask
            The step.
        made : (SlipKind, str)
            What was made, and the sentence that names it.
        judged : (Answer, Verdict)
            What was typed, and what is said of it.
        is_shown : bool
            Whether the number can show it.
        """
        verdict = judged[1]
        kind, sentence = made
        is_named = verdict.outcome is Outcome.SLIP
        is_right = is_named and sentence in verdict.sentence
        self.tally.misnamed.add(is_hit=is_named and not is_right)
        if is_named and not is_right:
            self.miss("named wrongly", ask.id, kind.value, judged)
        if is_shown:
            self.tally.named.add(is_hit=is_right)
            if not is_named:
                self.miss("not named", ask.id, kind.value, judged)

    def miss(
        self, figure: str, step: str, what: str, judged: tuple[Answer, Verdict]
    ) -> None:
        """
        Keep what was not as it should be.

        Parameters
        ----------
        figure : str
            The figure that it spoils.
        step : str
            Where it happened.
        what : str
            The slip or the outcome.
        judged : (Answer, Verdict)
            What was typed, and what is said of it.
        """
        answer, verdict = judged
        typed = getattr(answer, "text", None) or repr(answer)
        self.tally.miss(figure, step, what, f"{typed!r}: {verdict.sentence}")
