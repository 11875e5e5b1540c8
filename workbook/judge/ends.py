"""The verdict on a range: its ends against the two readings that it is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.errors import TextError, UnitError
from workbook.graph.slip import SlipKind, sentence_of
from workbook.graph.span import ROUND_OFF
from workbook.judge import words
from workbook.judge.typed import outcome_of
from workbook.measure.written import read_ends, read_range
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.labfile.form import RangeForm
    from workbook.measure.written import Written


def judge_range(
    case: Case, form: RangeForm, text: str, owns: Mapping[str, Own]
) -> Verdict:
    """
    Return the verdict on a range.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    form : RangeForm
        The readings of its ends.
    text : str
        As typed: ``"131.2-134.0 °C"``.
    owns : mapping of str to Own
        Where the student stands with every quantity.

    Returns
    -------
    Verdict
        RIGHT, FOLLOWS, FIGURES or WRONG by the student's own readings; SLIP where it
        is one of them alone, or runs from the one that holds down to the other.
    """
    ends = [case.graph.quantities[name] for name in form.of]
    try:
        typed = read_range(text, comma=case.convention.comma)
        are_read = [_holds(q, w, owns) for q, w in zip(ends, typed, strict=True)]
    except (TextError, UnitError) as error:
        named = _explain(case, ends, text, owns)
        return named or Verdict(outcome_of(error), str(error))
    if not all(are_read):
        return _say(typed, Outcome.WRONG, words.WRONG_RANGE)
    outcome, sentence = _judge_digits(ends, typed)
    fault = next((f for f in (owns[q.name].fault for q in ends) if f), None)
    if fault is not None and outcome is Outcome.RIGHT:
        outcome, sentence = Outcome.FOLLOWS, words.follows(case, fault)
    if typed[0].unit is None:
        left_out = words.UNIT_LEFT_OUT.format(unit=form.unit)
        sentence = f"{sentence} {left_out}"
    said = _say(typed, outcome, sentence)
    return replace(said, value_holds=True, follows=fault is not None)


def _say(typed: Sequence[Written], outcome: Outcome, sentence: str) -> Verdict:
    read_as = ", to ".join(each.say() for each in typed)
    has_unit = typed[0].unit is not None
    return Verdict(outcome, sentence, read_as=read_as, unit_written=has_unit)


def _holds(quantity: Quantity, written: Written, owns: Mapping[str, Own]) -> bool:
    """Tell whether an end is what the student has read there."""
    half = float(written.half_unit(quantity.unit)) * float(quantity.unit.factor)
    value = quantity.to_base(float(written.in_unit(quantity.unit)))
    return owns[quantity.name].span.widened(half).holds(value)


def _explain(
    case: Case, ends: Sequence[Quantity], text: str, owns: Mapping[str, Own]
) -> Verdict | None:
    """Name what was made of the student's own readings in place of a range."""
    try:
        typed = read_ends(text, comma=case.convention.comma)
        kind = _find_kind(ends, typed, owns)
    except (TextError, UnitError):
        return None
    sentence = "" if kind is None else sentence_of(case.graph, kind)
    return _say(typed, Outcome.SLIP, sentence) if sentence else None


def _find_kind(
    ends: Sequence[Quantity], typed: Sequence[Written], owns: Mapping[str, Own]
) -> SlipKind | None:
    if len(typed) == 1:
        is_end = any(_holds(quantity, typed[0], owns) for quantity in ends)
        return SlipKind.ONE_END if is_end else None
    turned = zip(ends, reversed(typed), strict=True)
    is_turned = all(_holds(quantity, written, owns) for quantity, written in turned)
    return SlipKind.RANGE_REVERSED if is_turned else None


def _judge_digits(
    ends: Sequence[Quantity], typed: Sequence[Written]
) -> tuple[Outcome, str]:
    """Compare the last typed digits with the last that the instruments support."""
    found = Outcome.RIGHT, words.RIGHT
    for quantity, written in zip(ends, typed, strict=True):
        if quantity.instrument is None:
            msg = f"{quantity.name!r} is no reading."
            raise ValueError(msg)
        step = float(quantity.instrument.step)
        digit = 2 * float(written.half_unit(quantity.unit))
        if digit > step * (1 + ROUND_OFF):
            found = Outcome.FIGURES, words.FEW_DIGITS
        elif digit < step * (1 - ROUND_OFF):
            found = Outcome.FIGURES, words.MANY_DIGITS
    return found
