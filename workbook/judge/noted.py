"""
Readings of the student's own bench: what is noted, and what follows from it.

A reading that is noted takes the place of a drawn one: every true value after it is
worked out from it. Where one is missing, nothing that rests on it has a value.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from msgspec.structs import replace as evolve

from workbook.graph.compute import compute
from workbook.graph.input import inputs_of
from workbook.judge import words
from workbook.judge.own import as_read
from workbook.judge.reading import compare_digits
from workbook.judge.typed import Typing, read_typed
from workbook.judge.value import Judgement, say
from workbook.measure.rounding import write
from workbook.wire.answer import Noted
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.labfile.instrument import Instrument
    from workbook.wire.answer import Answer
    from workbook.wire.handin import Attempt


def judge_noted(case: Case, quantity: Quantity, answer: Noted) -> Judgement:
    """
    Return the verdict on a reading of the student's own bench.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        The reading.
    answer : Noted
        As typed.

    Returns
    -------
    Judgement
        NOTED, held against itself; UNFIT where it does not suit its instrument or its
        window, or a change has no reason; or that it can't be read.

    Raises
    ------
    ValueError
        If the quantity has no instrument.
    """
    typing = read_typed(case, quantity, answer.text)
    if isinstance(typing, Verdict):
        return Judgement(typing)
    place = _instrument_of(quantity).place
    if sentence := _object(case, quantity, typing, answer):
        return Judgement(say(typing, quantity, Outcome.UNFIT, sentence))
    said = say(typing, quantity, Outcome.NOTED, words.NOTED)
    read = as_read(quantity, typing.value, place)
    return Judgement(evolve(said, value_holds=True), typing, (read,))


def _object(case: Case, quantity: Quantity, typing: Typing, answer: Noted) -> str:
    """Return why a reading is not noted, or the empty text."""
    window = case.graph.lab.public.windows[quantity.name]
    unit = quantity.unit
    if not window.low <= typing.written.in_unit(unit) <= window.high:
        low, high = write(window.low), write(window.high)
        return words.OUTSIDE.format(low=low, high=high, unit=unit.symbol)
    instrument = _instrument_of(quantity)
    if off := compare_digits(quantity, instrument, typing):
        said = words.FEW_OWN_DIGITS if off < 0 else words.MANY_OWN_DIGITS
        return said.format(step=write(instrument.step), unit=unit.symbol)
    is_change = bool(answer.instead_of.strip())
    return words.NO_REASON if is_change and not answer.reason.strip() else ""


def _instrument_of(quantity: Quantity) -> Instrument:
    if quantity.instrument is None:
        msg = f"{quantity.name!r} is no reading."
        raise ValueError(msg)
    return quantity.instrument


def judge_missing(case: Case) -> Verdict:
    """
    Return what is said of an answer that rests on a reading that is not noted.

    Parameters
    ----------
    case : Case
        The student's copy of the lab, settled.

    Returns
    -------
    Verdict
        EARLY. It names every own reading that is open, whatever the answer rests on,
        so that it tells nothing of the relation.
    """
    public = case.graph.lab.public
    names_open = [public.labels[n].text for n in public.windows if n in case.missing]
    return Verdict(Outcome.EARLY, words.EARLY.format(names="; ".join(names_open)))


def settle(case: Case, answers: Mapping[str, Answer]) -> Case:
    """
    Return a case with the student's own readings in it, and what follows from them.

    Parameters
    ----------
    case : Case
        As it was drawn; its own readings are only stood in for.
    answers : mapping of str to Answer
        The standing answers, by step.

    Returns
    -------
    Case
        The same one where a lab has no own readings. Where one is not noted, it is
        among the missing, and so is whatever rests on it.
    """
    windows = case.graph.lab.public.windows
    if not windows:
        return case
    values, missing, settled = dict(case.values), set[str](), set[str]()
    for name, quantity in case.graph.quantities.items():
        inputs = set(inputs_of(case.graph, name))
        if name in windows:
            value = _noted_value(case, quantity, answers.get(name))
            values[name] = math.nan if value is None else value
            (missing if value is None else settled).add(name)
        elif quantity.relation is not None and inputs & missing:
            values[name] = math.nan
            missing.add(name)
        elif quantity.relation is not None and inputs & settled:
            values[name] = compute(case.graph, quantity.relation, values)
            settled.add(name)
    return replace(case, values=values, missing=frozenset(missing))


def _noted_value(case: Case, quantity: Quantity, answer: Answer | None) -> float | None:
    if not isinstance(answer, Noted):
        return None
    judgement = judge_noted(case, quantity, answer)
    is_noted = judgement.verdict.outcome is Outcome.NOTED
    return judgement.typing.value if is_noted and judgement.typing else None


def list_noted(
    case: Case, quantity: Quantity, attempts: Iterable[Attempt]
) -> tuple[Attempt, ...]:
    """
    Return the readings that stood, one after the other.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    quantity : Quantity
        The reading.
    attempts : iterable of Attempt
        Everything that was given for it, in the order of giving.

    Returns
    -------
    tuple of Attempt
        The first that could be noted, then each that was and gives a reason; the last
        one stands.
    """
    noted: list[Attempt] = []
    for attempt in attempts:
        answer = attempt.answer
        if not isinstance(answer, Noted) or (noted and not answer.reason.strip()):
            continue
        judged = judge_noted(case, quantity, answer)
        if judged.verdict.outcome is Outcome.NOTED:
            noted.append(attempt)
    return tuple(noted)
