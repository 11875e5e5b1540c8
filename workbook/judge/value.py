"""The verdict on a derived value: what was read, whether it follows, its figures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from msgspec.structs import replace

from workbook.judge import words
from workbook.judge.band import holds, is_coarse, widening
from workbook.judge.typed import Typing, coarsest, read_typed
from workbook.measure.units import ONE
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.judge.own import Own


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict, and what it rests on."""

    verdict: Verdict
    #: What was read, in the way that fits; None where nothing could be.
    typing: Typing | None = None
    #: What the value agrees with, the soundest first; empty where it holds nowhere.
    held: tuple[Own, ...] = ()


def judge_value(
    case: Case, quantity: Quantity, text: str, stands: Sequence[Own]
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
    stands : sequence of Own
        What the value may follow from, the soundest first.

    Returns
    -------
    Judgement
        A value that agrees with several stands is held against the first.
    """
    typing = read_typed(case, quantity, text)
    if isinstance(typing, Verdict):
        return Judgement(typing)
    extra = widening(case, quantity, typing.value)
    held = [
        (own, way) for own in stands for way in typing.ways if holds(own, way, extra)
    ]
    telling = [(own, way) for own, way in held if not is_coarse(own, way)]
    if telling:
        first = telling[0][0]
        meant = coarsest([way for own, way in telling if own is first])
        agreed = tuple(own for own in stands if holds(own, meant, extra))
        return Judgement(_holding(case, quantity, typing, first), meant, agreed)
    if held:
        # What comes after may follow from it, as from any value that is not right yet.
        coarse = say(typing, quantity, Outcome.COARSE, words.COARSE)
        return Judgement(coarse, typing)
    wrong = say(typing, quantity, Outcome.WRONG, words.WRONG)
    return Judgement(wrong, typing.nearest_to(stands[0].known.figures))


def _holding(case: Case, quantity: Quantity, typing: Typing, own: Own) -> Verdict:
    outcome, sentence = Outcome.RIGHT, words.RIGHT
    if own.fault is not None:
        outcome, sentence = Outcome.FOLLOWS, words.follows(case, own.fault)
    complaint = _wrong_figures(typing, own, case.convention.figures_slack)
    if complaint:
        value = sentence if own.fault is not None else words.VALUE_RIGHT
        outcome, sentence = Outcome.FIGURES, f"{value} {complaint}"
    verdict = say(typing, quantity, outcome, sentence)
    return replace(verdict, value_holds=True, follows=own.fault is not None)


def _wrong_figures(typing: Typing, own: Own, slack: int) -> str:
    proper = own.known.figures
    if not proper:
        return ""
    if typing.written.figures < proper - slack:
        return words.FEW_FIGURES
    if typing.written.least_figures > proper + slack:
        return words.MANY_FIGURES
    return ""


def say(typing: Typing, quantity: Quantity, outcome: Outcome, sentence: str) -> Verdict:
    """
    Return a verdict that tells how the text was read, and whether its unit is missing.

    Parameters
    ----------
    typing : Typing
        The answer.
    quantity : Quantity
        What is asked.
    outcome : Outcome
        What became of it.
    sentence : str
        What a student reads of it.

    Returns
    -------
    Verdict
        Its value said not to hold yet.
    """
    # A plain number has no unit to write.
    has_unit = typing.written.unit is not None or quantity.unit == ONE
    if not has_unit and outcome is not Outcome.COARSE:
        left_out = words.UNIT_LEFT_OUT.format(unit=quantity.unit.symbol)
        sentence = f"{sentence} {left_out}"
    return Verdict(
        outcome, sentence, read_as=typing.written.say(), unit_written=has_unit
    )
