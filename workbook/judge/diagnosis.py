"""
Which known mistake leads to a wrong value, worked out from the student's own values.

A mistake is named only if it is the one explanation that fits, or all that fit are told
in the same sentence. A value close to the right one is left unexplained.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.graph.compute import compute_span
from workbook.graph.function import to_function
from workbook.graph.quantity import Origin
from workbook.graph.slip import slips_of
from workbook.graph.span import Span
from workbook.judge.handwork import work_by_hand
from workbook.judge.shortened import find_shortened
from workbook.judge.value import say
from workbook.relation.tree import names
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.graph.function import Function
    from workbook.graph.quantity import Graph, Quantity
    from workbook.graph.slip import Slip
    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.judge.typed import Typing
    from workbook.judge.value import Judgement

#: A value that lies less than so many times as far from the right one as is allowed is
#: too close to it to be explained [-].
_CLOSE = 1.5

#: A mistake whose value is further from what was typed than this share is not looked
#: into any closer [-].
_FAR = 0.1

#: Steps whose mistakes are kept ready.
_KEPT = 1024


def explain(
    case: Case,
    quantity: Quantity,
    judgement: Judgement,
    stands: Sequence[Own],
    owns: Mapping[str, Own],
) -> Verdict:
    """
    Return the verdict with the mistake named, where a wrong value shows which it was.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        What is asked.
    judgement : Judgement
        What was found without looking for mistakes.
    stands : sequence of Own
        What the value should have followed from.
    owns : mapping of str to Own
        Where the student stands with every other quantity.

    Returns
    -------
    Verdict
        A working that does not hold keeps its own sentence: it says more.
    """
    verdict, typing = judgement.verdict, judgement.typing
    is_wrong = verdict.outcome is Outcome.WRONG and not judgement.held
    if quantity.origin is not Origin.DERIVED or typing is None or not is_wrong:
        return verdict
    sentence = diagnose(case, quantity, typing, stands, owns)
    if not sentence:
        return verdict
    if verdict.method_holds is False:
        return replace(verdict, outcome=Outcome.SLIP)
    named = say(typing, quantity, Outcome.SLIP, sentence)
    return replace(named, method_holds=verdict.method_holds)


def diagnose(
    case: Case,
    quantity: Quantity,
    typing: Typing,
    stands: Sequence[Own],
    owns: Mapping[str, Own],
) -> str:
    """
    Return the sentence of the mistake that leads to a wrong value.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        What is asked.
    typing : Typing
        The wrong answer.
    stands : sequence of Own
        What the value should have followed from.
    owns : mapping of str to Own
        Where the student stands with every other quantity.

    Returns
    -------
    str
        Empty where no single explanation is known.
    """
    slips = _fitting(case, quantity, typing, owns)
    is_close = any(_is_close(own, typing) for own in stands)
    if slips and is_close:
        return ""
    fitting = slips | set(find_shortened(case, quantity, typing, owns)) - {""}
    return fitting.pop() if len(fitting) == 1 else ""


def _fitting(
    case: Case, quantity: Quantity, typing: Typing, owns: Mapping[str, Own]
) -> set[str]:
    """Return the sentences of the mistakes that give a value."""
    values = {name: own.value for name, own in owns.items()}
    # The zeros of 234000 mg may only fill: then it is 234 g, rounded.
    ways = typing.ways
    found: set[str] = set()
    for slip, function in _prepared(case.graph, quantity.name):
        if not case.missing.isdisjoint(names(slip.relation)):
            continue  # it has no value yet
        is_near = math.isclose(function(values), typing.value, rel_tol=_FAR)
        if is_near and any(_fits(case, slip, way, owns) for way in ways):
            found.add(slip.sentence)
    return found


@lru_cache(maxsize=_KEPT)
def _prepared(graph: Graph, name: str) -> tuple[tuple[Slip, Function], ...]:
    """Return the mistakes with a quantity, each ready to be worked out."""
    return tuple((s, to_function(graph, s.relation)) for s in slips_of(graph, name))


def _is_close(own: Own, typing: Typing) -> bool:
    half = (own.span.high - own.span.low) / 2
    return own.span.widened((_CLOSE - 1) * half + _CLOSE * typing.half).holds(
        typing.value
    )


def _fits(case: Case, slip: Slip, typing: Typing, owns: Mapping[str, Own]) -> bool:
    """Tell whether a mistake gives a value, unrounded or rounded on the way."""
    graph, relation = case.graph, slip.relation
    spans: dict[str, Span] = {name: owns[name].span for name in names(relation)}
    found = compute_span(graph, relation, spans)
    if found.widened(typing.half).holds(typing.value):
        return True
    typed = Span.around(typing.value, typing.half)
    starts = (
        {name: owns[name].value for name in spans},
        {name: span.low for name, span in spans.items()},
        {name: span.high for name, span in spans.items()},
    )
    return any(
        typed.holds(work_by_hand(graph, relation, start, typing.figures))
        for start in starts
    )
