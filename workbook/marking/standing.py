"""
Which answer of each step counts: the latest that was really an attempt.

Of a prediction it is the first: whoever has seen what happens predicts no more.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge.judge import judge_sheet
from workbook.wire.verdict import NO_ATTEMPT

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.judge.case import Case
    from workbook.wire.answer import Answer
    from workbook.wire.handin import Attempt
    from workbook.wire.verdict import Verdict

#: How many answers to one step are looked at, from the latest back [-]. Nobody types
#: so many in a row that can't be read, and a file with thousands must cost no time.
LOOK_BACK = 50


def judge_standing(
    case: Case, attempts: Iterable[Attempt]
) -> dict[str, tuple[Answer, Verdict]]:
    """
    Return the answers that are marked, each with its verdict.

    What can't be read was never an attempt, so it leaves the one before it
    standing, as it did in the notebook. A step that has nothing else keeps its
    latest answer, so that the marks can say why it earns nothing.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    attempts : iterable of Attempt
        Of a hand-in that was accepted, in the order of giving.

    Returns
    -------
    dict of str to tuple of Answer and Verdict
        By step; a step that was not answered is left out.
    """
    asks = case.graph.lab.public.asks
    first = frozenset(ask.id for ask in asks if ask.kind == "prediction")
    tries = _list_tries(attempts, first)
    places = dict.fromkeys(tries, 0)
    while True:
        # Past the last to be looked at comes the first again, and stays.
        standing = {s: found[places[s] % len(found)] for s, found in tries.items()}
        verdicts = judge_sheet(case, standing)
        lost = [
            step
            for step, verdict in verdicts.items()
            if verdict.outcome in NO_ATTEMPT and places[step] < len(tries[step])
        ]
        if not lost:
            return {step: (standing[step], each) for step, each in verdicts.items()}
        for step in lost:
            places[step] += 1


def _list_tries(
    attempts: Iterable[Attempt], first: frozenset[str]
) -> dict[str, list[Answer]]:
    """List the answers to each step, each once: latest first, or for some earliest."""
    once = {attempt.id: attempt for attempt in reversed(tuple(attempts))}
    tries: dict[str, list[Answer]] = {}
    for attempt in once.values():
        tries.setdefault(attempt.step, []).append(attempt.answer)
    for step in first & tries.keys():
        tries[step].reverse()
    return {step: list(dict.fromkeys(f))[:LOOK_BACK] for step, f in tries.items()}
