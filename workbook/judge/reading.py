"""The verdict on a reading: against its instrument, never against a relation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.graph.span import ROUND_OFF
from workbook.judge import words
from workbook.judge.band import widening
from workbook.judge.own import Own, as_read
from workbook.judge.scale import name_misreading
from workbook.judge.typed import Typing, read_typed
from workbook.judge.value import Judgement, say
from workbook.labfile.instrument import Kind
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.labfile.instrument import Instrument


#: How an instrument is read that was read wrongly.
_ADVICE = {
    Kind.CYLINDER: words.WRONG_UPWARDS,
    Kind.BURETTE: words.WRONG_DOWNWARDS,
    Kind.GRADUATED: words.WRONG_DOWNWARDS,
    Kind.VOLUMETRIC: words.WRONG_RING,
    Kind.THERMOMETER: words.WRONG_COLUMN,
    Kind.BALANCE: words.WRONG_DISPLAY,
    Kind.ANALYTICAL: words.WRONG_DISPLAY,
}


def judge_reading(case: Case, quantity: Quantity, text: str, shown: Own) -> Judgement:
    """
    Return the verdict on a reading.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        The reading.
    text : str
        As typed.
    shown : Own
        What the instrument shows, with its allowance.

    Returns
    -------
    Judgement
        An accepted reading is held against itself: the student goes on from there.

    Raises
    ------
    ValueError
        If the quantity has no instrument.
    """
    typing = read_typed(case, quantity, text)
    if isinstance(typing, Verdict):
        return Judgement(typing)
    if (instrument := quantity.instrument) is None:
        msg = f"{quantity.name!r} is no reading."
        raise ValueError(msg)
    extra = widening(case, quantity, typing.value)
    if not shown.span.widened(extra).holds(typing.value):
        return Judgement(_explain(case, quantity, typing, shown), typing)
    off = compare_digits(quantity, instrument, typing)
    outcome = Outcome.FIGURES if off else Outcome.RIGHT
    sentence = _say_digits(instrument, off)
    verdict = replace(say(typing, quantity, outcome, sentence), value_holds=True)
    read = as_read(quantity, typing.value, instrument.place)
    return Judgement(verdict, typing, (read,))


def _explain(case: Case, quantity: Quantity, typing: Typing, shown: Own) -> Verdict:
    """Name the misreading, or else say how such an instrument is read."""
    named = name_misreading(case, quantity, typing, shown)
    if named or quantity.instrument is None:
        return say(typing, quantity, Outcome.SLIP, named)
    return say(typing, quantity, Outcome.WRONG, _ADVICE[quantity.instrument.kind])


def _say_digits(instrument: Instrument, off: int) -> str:
    if off > 0:
        return words.MANY_DIGITS
    if not off:
        return words.RIGHT_READING
    if instrument.has_display:
        return words.FEW_DISPLAYED
    return words.FEW_PRINTED if instrument.is_fixed else words.FEW_DIGITS


def compare_digits(quantity: Quantity, instrument: Instrument, typing: Typing) -> int:
    """
    Compare the last typed digit with the last that the instrument supports.

    Parameters
    ----------
    quantity : Quantity
        The reading.
    instrument : Instrument
        What was read.
    typing : Typing
        What was typed.

    Returns
    -------
    int
        -1 for too few digits, 1 for too many, 0 where they can be meant rightly.
    """
    step = float(instrument.step) * float(quantity.unit.factor)
    digits = [2 * way.half for way in typing.ways]
    if min(digits) > step * (1 + ROUND_OFF):
        return -1
    return int(max(digits) < step * (1 - ROUND_OFF))
