"""The verdict on a typed value: what was read, whether it follows, to what figures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import msgspec

from workbook.errors import (
    AmbiguousError,
    BlankError,
    DimensionError,
    TextError,
    UnitError,
)
from workbook.graph.span import ROUND_OFF, Span
from workbook.judge import words
from workbook.judge.band import Bands, Typing, round_zeros
from workbook.measure.written import read_answer
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case, Convention
    from workbook.judge.own import Own
    from workbook.measure.written import Written


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict, and what was read; None where nothing could be."""

    verdict: Verdict
    typing: Typing | None = None


def read_typed(case: Case, quantity: Quantity, text: str) -> Typing | Verdict:
    """
    Return what a student typed for a quantity, or the verdict that it can't be read.

    Parameters
    ----------
    case : Case
        For the conventions of reading.
    quantity : Quantity
        What is asked.
    text : str
        As typed.

    Returns
    -------
    Typing or Verdict
        A verdict of BLANK, ASKED, UNREAD or DIMENSION.
    """
    try:
        written = read_answer(text, quantity.unit, comma=case.convention.comma)
    except (TextError, UnitError) as error:
        return Verdict(_unread_outcome(error), str(error))
    value = quantity.to_base(float(written.in_unit(quantity.unit)))
    half = float(written.half_unit(quantity.unit)) * float(quantity.unit.factor)
    return Typing(written, value, half, written.figures)


def _unread_outcome(error: TextError | UnitError) -> Outcome:
    match error:
        case BlankError():
            return Outcome.BLANK
        case AmbiguousError():
            return Outcome.ASKED
        case DimensionError():
            return Outcome.DIMENSION
        case _:
            return Outcome.UNREAD


def judge_value(
    case: Case, quantity: Quantity, text: str, own: Own, truth: Own
) -> Judgement:
    """
    Return the verdict on a derived value.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        What is asked.
    text : str
        As typed.
    own : Own
        What follows from the student's own values.
    truth : Own
        What follows from the true ones.

    Returns
    -------
    Judgement
        With the typing, if it could be read.
    """
    typing = read_typed(case, quantity, text)
    if isinstance(typing, Verdict):
        return Judgement(typing)
    bands = Bands(own, truth, _widening(case, quantity, typing.value))
    ways = (typing, round_zeros(typing))
    holding = [way for way in ways if bands.hold(way)]
    fine = [way for way in holding if not bands.is_coarse(way)]
    if not holding:
        return Judgement(_say(typing, quantity, Outcome.WRONG, words.WRONG), typing)
    if not fine:
        return Judgement(_say(typing, quantity, Outcome.COARSE, words.COARSE))
    fault = None if bands.is_true(fine[0]) else own.fault
    return Judgement(_holding(case, quantity, fine[0], own, fault), fine[0])


def _widening(case: Case, quantity: Quantity, value: float) -> float:
    """Return what the author adds to the band, in base units."""
    widen = case.graph.lab.key.widen.get(quantity.name)
    if widen is None or widen.unit is None:
        return 0.0
    if widen.unit.dimension == quantity.unit.dimension:
        return float(widen.in_unit(quantity.unit)) * float(quantity.unit.factor)
    return abs(value) * float(widen.value) / 100


def _holding(
    case: Case, quantity: Quantity, typing: Typing, own: Own, fault: str | None
) -> Verdict:
    outcome, sentence = Outcome.RIGHT, words.RIGHT
    if fault is not None:
        outcome = Outcome.FOLLOWS
        sentence = words.FOLLOWS.format(fault=_called(case, fault))
    complaint = _wrong_figures(typing.written, own.known.figures, case.convention)
    if complaint:
        outcome = Outcome.FIGURES
        sentence = f"{complaint} {sentence}" if fault else complaint
    verdict = _say(typing, quantity, outcome, sentence)
    return _with(verdict, value_holds=True, follows=fault is not None)


def _called(case: Case, name: str) -> str:
    return f"the {case.graph.lab.public.labels[name].text}"


def _wrong_figures(written: Written, figures: int | None, rule: Convention) -> str:
    if figures is None or figures < 1:
        return ""
    if written.figures < figures - rule.figures_slack:
        return words.FEW_FIGURES
    if written.least_figures > figures + rule.figures_slack:
        return words.MANY_FIGURES
    return ""


def _say(
    typing: Typing, quantity: Quantity, outcome: Outcome, sentence: str
) -> Verdict:
    unit_written = typing.written.unit is not None
    if not unit_written and outcome is not Outcome.COARSE:
        left_out = words.UNIT_LEFT_OUT.format(unit=quantity.unit.symbol)
        sentence = f"{sentence} {left_out}"
    return Verdict(
        outcome, sentence, read_as=typing.written.say(), unit_written=unit_written
    )


def _with(verdict: Verdict, *, value_holds: bool, follows: bool) -> Verdict:
    return msgspec.structs.replace(verdict, value_holds=value_holds, follows=follows)


def judge_reading(case: Case, quantity: Quantity, text: str) -> Judgement:
    """
    Return the verdict on a reading: against the instrument, never against a relation.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        The reading.
    text : str
        As typed.

    Returns
    -------
    Judgement
        With the typing, if it could be read.
    """
    typing = read_typed(case, quantity, text)
    if isinstance(typing, Verdict):
        return Judgement(typing)
    instrument = quantity.instrument
    if instrument is None:
        msg = f"{quantity.name!r} is no reading."
        raise ValueError(msg)
    allowance = float(instrument.allowance) * float(quantity.unit.factor)
    shown = Span.around(case.values[quantity.name], allowance)
    if not shown.holds(typing.value):
        return Judgement(
            _say(typing, quantity, Outcome.WRONG, words.WRONG_READING), typing
        )
    digit = 2 * float(typing.written.half_unit(quantity.unit))
    step = float(instrument.step)
    outcome, sentence = Outcome.RIGHT, words.RIGHT_READING
    if digit > step * (1 + ROUND_OFF):
        outcome, sentence = Outcome.FIGURES, words.FEW_DIGITS
    elif digit < step * (1 - ROUND_OFF):
        outcome, sentence = Outcome.FIGURES, words.MANY_DIGITS
    verdict = _say(typing, quantity, outcome, sentence)
    return Judgement(_with(verdict, value_holds=True, follows=False), typing)
