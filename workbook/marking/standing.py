"""Which answer of each step counts: the latest that was really an attempt."""

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
    tries = _list_tries(attempts)
    places = dict.fromkeys(tries, 0)
    while True:
        # Past the earliest answer comes the latest again, and stays.
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


def _list_tries(attempts: Iterable[Attempt]) -> dict[str, list[Answer]]:
    """List the answers to each step, latest first, each once."""
    once = {attempt.id: attempt for attempt in reversed(tuple(attempts))}
    tries: dict[str, dict[Answer, None]] = {}
    for attempt in once.values():
        tries.setdefault(attempt.step, {}).setdefault(attempt.answer)
    return {step: list(found)[:LOOK_BACK] for step, found in tries.items()}
