"""The verdict on a range: its ends against the two readings that it is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import TextError, UnitError
from workbook.graph.span import ROUND_OFF
from workbook.judge import words
from workbook.judge.typed import outcome_of
from workbook.measure.written import read_range
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

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
        RIGHT, FOLLOWS, FIGURES or WRONG by the student's own readings; one value
        alone, or one that runs downwards, is told and is no attempt.
    """
    ends = [case.graph.quantities[name] for name in form.of]
    try:
        typed = read_range(text, comma=case.convention.comma)
        values = [w.in_unit(q.unit) for q, w in zip(ends, typed, strict=True)]
    except (TextError, UnitError) as error:
        return Verdict(outcome_of(error), str(error))
    read_as = ", to ".join(each.say() for each in typed)
    has_unit = typed[0].unit is not None
    for quantity, written, value in zip(ends, typed, values, strict=True):
        half = float(written.half_unit(quantity.unit)) * float(quantity.unit.factor)
        span = owns[quantity.name].span.widened(half)
        if not span.holds(quantity.to_base(float(value))):
            wrong = Outcome.WRONG
            return Verdict(
                wrong, words.WRONG_RANGE, read_as=read_as, unit_written=has_unit
            )
    outcome, sentence = _judge_digits(ends, typed)
    fault = next((f for f in (owns[q.name].fault for q in ends) if f), None)
    if fault is not None and outcome is Outcome.RIGHT:
        outcome, sentence = Outcome.FOLLOWS, words.follows(case, fault)
    if not has_unit:
        left_out = words.UNIT_LEFT_OUT.format(unit=form.unit)
        sentence = f"{sentence} {left_out}"
    return Verdict(
        outcome,
        sentence,
        read_as=read_as,
        value_holds=True,
        follows=fault is not None,
        unit_written=has_unit,
    )


def _judge_digits(
    ends: list[Quantity], typed: tuple[Written, Written]
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
