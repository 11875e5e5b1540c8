"""
Which known mistake leads to a wrong value, worked out from the student's own values.

A mistake is named only if it is the one explanation that fits, or all that fit are told
in the same sentence. A value close to the right one is left unexplained, and so is one
that a mere guess could meet as well.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.graph.function import to_function
from workbook.graph.quantity import Origin
from workbook.graph.slip import SlipKind, sentence_of, slips_of
from workbook.graph.slip_rule.sentence import say_together
from workbook.judge.band import is_close
from workbook.judge.claim import MOST, claim
from workbook.judge.exponent import is_sign_lost
from workbook.judge.lead import LEADS
from workbook.judge.shortened import find_shortened
from workbook.judge.typed import sure_ways
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

#: A mistake whose value is further from what was typed than this share is not looked
#: into any closer [-].
_FAR = 0.1

#: What both make a value a million times too large, or too small.
_MILLIONFOLD = frozenset({SlipKind.EXPONENT_SIGN, SlipKind.MILLION})

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
        What the value should have followed from, the student's own values last.
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
        What the value should have followed from, the student's own values last.
    owns : mapping of str to Own
        Where the student stands with every other quantity.

    Returns
    -------
    str
        Empty where no single explanation is known.
    """
    own = stands[-1]
    claims = _fitting(case, quantity, typing, owns, own.value)
    # What follows from accepted readings alone counts where an own value is at fault.
    against = stands if own.fault is not None else (own,)
    if claims and any(is_close(each, typing) for each in against):
        return ""
    for sentence, led in find_shortened(case, quantity, typing, owns).items():
        claims[sentence] = claim(led, own.value, typing.figures)
    if is_sign_lost(quantity, typing, own.span) and (named := _turned(case, claims)):
        return named
    if len(claims) != 1:
        return ""
    ((sentence, claimed),) = claims.items()
    return sentence if claimed <= MOST else ""


def _turned(case: Case, claims: Mapping[str, float]) -> str:
    """Return what is said of a lost sign: of 10^3 it makes what two prefixes make."""
    sign = sentence_of(case.graph, SlipKind.EXPONENT_SIGN)
    million = sentence_of(case.graph, SlipKind.MILLION)
    if not sign or not claims:
        return sign
    if claims.keys() != {million} or claims[million] > MOST:
        return ""
    return say_together(_MILLIONFOLD, (), case.graph.lab.key.slips.says)


def _fitting(
    case: Case,
    quantity: Quantity,
    typing: Typing,
    owns: Mapping[str, Own],
    right: float,
) -> dict[str, float]:
    """Return the sentences of the mistakes that give a value, and what each claims."""
    values = {name: owns[name].value for name in _used(case.graph, quantity.name)}
    # The zeros of 234000 mg may only fill: then it is 234 g, rounded.
    ways = sure_ways(typing)
    claims: dict[str, float] = {}
    for slip, function in _prepared(case.graph, quantity.name):
        if not case.missing.isdisjoint(names(slip.relation)):
            continue  # it has no value yet
        if not math.isclose(function(values), typing.value, rel_tol=_FAR):
            continue
        for way, lead in product(ways, LEADS):
            spans = lead(case.graph, slip.relation, way.figures, owns)
            if any(span.widened(way.half).holds(way.value) for span in spans):
                claimed = claim(spans, right, way.figures)
                claims[slip.sentence] = max(claimed, claims.get(slip.sentence, 0.0))
                break
    return claims


@lru_cache(maxsize=_KEPT)
def _used(graph: Graph, name: str) -> frozenset[str]:
    """Return the names that the mistakes with a quantity are worked out from."""
    slips = slips_of(graph, name)
    return frozenset(each for slip in slips for each in names(slip.relation))


@lru_cache(maxsize=_KEPT)
def _prepared(graph: Graph, name: str) -> tuple[tuple[Slip, Function], ...]:
    """Return the mistakes with a quantity, each ready to be worked out."""
    return tuple((s, to_function(graph, s.relation)) for s in slips_of(graph, name))
