"""
Which known way to misread an instrument leads to a wrong reading.

As with a value that is worked out: a misreading is named only if it is the one that
fits, or all that fit are told in one sentence, and if a guess would hardly meet it.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING, Final

from workbook.graph.slip import SlipKind, sentence_of
from workbook.graph.slip_rule.sentence import TOGETHER, say_together
from workbook.graph.span import Span
from workbook.judge.band import is_close
from workbook.judge.claim import claim
from workbook.judge.misreading import find_misreadings

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.judge.misreading import Misreading
    from workbook.judge.own import Own
    from workbook.judge.typed import Typing
    from workbook.labfile.instrument import Instrument

#: A misreading that claims more of the plausible numbers than this is not told [-]: one
#: guess in a hundred may meet it. A scale has a handful of them where a relation has a
#: hundred mistakes, so that each may claim more.
MOST: Final = 0.01

#: Readings that stop at a line.
_LINES = frozenset({SlipKind.LINE_BELOW, SlipKind.NEAREST_LINE})


def name_misreading(case: Case, quantity: Quantity, typing: Typing, shown: Own) -> str:
    """
    Return the sentence of the misreading that leads to a wrong value.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        The reading.
    typing : Typing
        The wrong answer.
    shown : Own
        What the instrument shows, with its allowance.

    Returns
    -------
    str
        Empty where no single one is known.
    """
    instrument = quantity.instrument
    if instrument is None or _is_near(quantity, instrument, typing, shown):
        return ""
    typed, true = quantity.from_base(typing.value), quantity.from_base(shown.value)
    known = [
        each
        for each in find_misreadings(instrument, true)
        if sentence_of(case.graph, each.kind)
    ]
    kinds = frozenset(each.kind for each in known if each.fits(instrument, typed))
    if typing.half > float(instrument.step) * float(quantity.unit.factor):
        # Whoever judges between two lines writes the digit down.
        kinds = kinds & _LINES or kinds
    if not kinds or (len(kinds) > 1 and kinds not in TOGETHER):
        return ""
    led = (each for each in known if each.kind in kinds)
    if claim(_spans(led, instrument), true, typing.figures) > MOST:
        return ""
    return say_together(kinds, (), case.graph.lab.key.slips.says)


def _is_near(
    quantity: Quantity, instrument: Instrument, typing: Typing, shown: Own
) -> bool:
    """Tell whether a value is too close to what is shown, whatever digits it lacks."""
    half = float(instrument.step) / 2 * float(quantity.unit.factor)
    return is_close(shown, replace(typing, half=half))


def _spans(led: Iterable[Misreading], instrument: Instrument) -> Iterable[Span]:
    for each in led:
        # No value of a misreading is known better than to the last recorded digit.
        reach = max(each.reach - instrument.step / 2, Decimal(0))
        yield Span.around(float(each.value), float(reach))
