"""
Which answer of each step counts: the latest that was really an attempt.

Of a prediction it is the first: whoever has seen what happens predicts no more. So it
is of a reading of the student's own, which only a reason changes. Where a course limits
attempts, it is the latest within the limit.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from workbook.judge.judge import SheetJudge
from workbook.judge.noted import list_noted
from workbook.wire.verdict import NO_ATTEMPT

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from workbook.graph.span import Span
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask
    from workbook.wire.answer import Answer
    from workbook.wire.handin import Attempt
    from workbook.wire.verdict import Verdict

#: How many answers to one step are looked at, from the latest back [-]. Nobody types
#: so many in a row that can't be read, and a file with thousands must cost no time.
LOOK_BACK = 50


class Stood(NamedTuple):
    """The answer to a step that is marked."""

    answer: Answer
    verdict: Verdict
    attempt: Attempt
    #: How many answers were attempts up to this one, itself included [-].
    number: int
    #: How many attempts came after the limit, and don't count [-].
    beyond: int
    #: Where the answer is accepted, in base units.
    accepted: tuple[Span, ...]


#: The answers to each step, each once: in the order in which they are looked at.
_Tries: TypeAlias = "dict[str, list[Attempt]]"


def judge_standing(
    case: Case,
    attempts: Iterable[Attempt],
    limits: Mapping[str, int] | None = None,
) -> dict[str, Stood]:
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
    limits : mapping of str to int, optional
        How many attempts count, by step [-]; None, or a step that is left out: all.

    Returns
    -------
    dict of str to Stood
        By step; a step that was not answered is left out.
    """
    asks = {ask.id: ask for ask in case.graph.lab.public.asks}
    limits = limits or {}
    first = frozenset(ask.id for ask in asks.values() if ask.kind == "prediction")
    given = tuple(attempts)
    tries = _list_tries(given, first, limits)
    noted = list_changes(case, given)
    tries |= {step: [each[-1]] for step, each in noted.items() if each}
    judge, standing = _settle(case, tries)
    made = {s: _list_made(judge, asks[s], tries[s]) for s in tries if s not in first}
    beyond = {
        s: len(made[s]) - n for s, n in limits.items() if len(made.get(s, ())) > n
    }
    if beyond:
        for step, more in beyond.items():
            tries[step] = tries[step][tries[step].index(made[step][-1 - more]) :]
        judge, standing = _settle(case, tries)
    return {
        step: Stood(
            attempt.answer,
            judge.verdicts[step],
            attempt,
            _number(attempt, made.get(step, [])),
            beyond.get(step, 0),
            judge.accepted(asks[step].of or ""),
        )
        for step, attempt in standing.items()
    }


def list_changes(
    case: Case, attempts: Iterable[Attempt]
) -> dict[str, tuple[Attempt, ...]]:
    """
    Return the readings of the student's own bench, each with what it was before.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    attempts : iterable of Attempt
        Of a hand-in that was accepted, in the order of giving.

    Returns
    -------
    dict of str to tuple of Attempt
        By step, the first that was noted and each change that has a reason; empty
        where nothing could be noted.
    """
    once = {attempt.id: attempt for attempt in reversed(tuple(attempts))}
    given = [*once.values()][::-1]
    quantities = case.graph.quantities
    return {
        name: list_noted(case, quantities[name], (a for a in given if a.step == name))
        for name in case.graph.lab.public.windows
    }


def _number(attempt: Attempt, made: list[Attempt]) -> int:
    return made.index(attempt) + 1 if attempt in made else 0


def _settle(case: Case, tries: _Tries) -> tuple[SheetJudge, dict[str, Attempt]]:
    """Go back in each step to an answer that is an attempt beside all the others."""
    places = dict.fromkeys(tries, 0)
    while True:
        # Past the last to be looked at comes the first again, and stays.
        standing = {s: found[places[s] % len(found)] for s, found in tries.items()}
        judge = SheetJudge(case, {s: each.answer for s, each in standing.items()})
        lost = [
            step
            for step in tries
            if judge.verdicts[step].outcome in NO_ATTEMPT
            and places[step] < len(tries[step])
        ]
        if not lost:
            return judge, standing
        for step in lost:
            places[step] += 1


def _list_made(judge: SheetJudge, ask: Ask, found: list[Attempt]) -> list[Attempt]:
    """List the answers that were attempts, from the first on."""
    if len(found) == 1:
        return [] if judge.verdicts[ask.id].outcome in NO_ATTEMPT else found
    return [each for each in reversed(found) if judge.is_attempt(ask, each.answer)]


def _list_tries(
    attempts: Iterable[Attempt], first: frozenset[str], limits: Mapping[str, int]
) -> _Tries:
    """List the answers to each step, each once: latest first, or for some earliest."""
    once = {attempt.id: attempt for attempt in reversed(tuple(attempts))}
    given: _Tries = {}
    for attempt in once.values():
        given.setdefault(attempt.step, []).append(attempt)
    for step in first & given.keys():
        given[step].reverse()
    return {
        step: _cut(_list_once(found), is_limited=step in limits)
        for step, found in given.items()
    }


def _list_once(found: Iterable[Attempt]) -> list[Attempt]:
    """Leave out what was answered again."""
    once: dict[Answer, Attempt] = {}
    for attempt in found:
        once.setdefault(attempt.answer, attempt)
    return list(once.values())


def _cut(found: list[Attempt], *, is_limited: bool) -> list[Attempt]:
    # Under a limit it is the earliest that count.
    return found[-LOOK_BACK:] if is_limited else found[:LOOK_BACK]
