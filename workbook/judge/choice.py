"""The verdict on what was ticked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.judge.limiting import explain_limiting
from workbook.judge.noted import judge_missing
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.judge.case import Case
    from workbook.judge.own import Own
    from workbook.labfile.half import Ask
    from workbook.wire.answer import Chosen


def judge_choice(
    case: Case, ask: Ask, answer: Chosen, owns: Mapping[str, Own]
) -> Verdict:
    """
    Return the verdict on a choice.

    A question for the limiting reagent is judged from the student's own amounts.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    ask : Ask
        The step.
    answer : Chosen
        What was ticked.
    owns : mapping of str to Own
        Where the student stands with every quantity.

    Returns
    -------
    Verdict
        RIGHT, FOLLOWS, SLIP, WRONG, or BLANK where nothing is ticked.
    """
    ticked = set(answer.options)
    if not ticked:
        return Verdict(Outcome.BLANK, words.BLANK)
    if ask.id in case.graph.lab.key.limiting:
        return judge_limiting(case, ask.id, ticked, owns)
    if ticked == set(case.graph.lab.key.right[ask.id]):
        return _right(words.RIGHT_CHOICE if ask.several else words.RIGHT_SINGLE)
    return Verdict(
        Outcome.WRONG, words.WRONG_CHOICE if ask.several else words.WRONG_SINGLE
    )


def _right(sentence: str) -> Verdict:
    return Verdict(Outcome.RIGHT, sentence, value_holds=True)


def judge_limiting(
    case: Case, step: str, ticked: set[str], owns: Mapping[str, Own]
) -> Verdict:
    """
    Return the verdict on the limiting reagent, by the student's own amounts.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    step : str
        The step that asks.
    ticked : set of str
        The species that were chosen.
    owns : mapping of str to Own
        Where the student stands with every quantity.

    Returns
    -------
    Verdict
        RIGHT, FOLLOWS, WRONG, SLIP where one thing speaks for a wrong reagent, or
        EARLY where an amount rests on a reading that is missing.
    """
    amounts = case.graph.lab.key.limiting[step]
    if not case.missing.isdisjoint(amounts.values()):
        return judge_missing(case)
    if ticked == {limiting_reagent(case, step, case.values)}:
        return _right(words.RIGHT_LIMITING)
    own_values = {name: owns[name].value for name in amounts.values()}
    if ticked == {limiting_reagent(case, step, own_values)}:
        return _following(case, step, owns)
    return _wrong_limiting(case, step, ticked, owns)


def _following(case: Case, step: str, owns: Mapping[str, Own]) -> Verdict:
    amounts = case.graph.lab.key.limiting[step]
    faults = (owns[name].fault for name in amounts.values())
    fault = next((each for each in faults if each is not None), None)
    if fault is None:
        return _right(words.RIGHT)
    sentence = words.follows(case, fault)
    return Verdict(Outcome.FOLLOWS, sentence, value_holds=True, follows=True)


def _wrong_limiting(
    case: Case, step: str, ticked: set[str], owns: Mapping[str, Own]
) -> Verdict:
    named = ""
    if len(ticked) == 1:
        (chosen,) = ticked
        named = explain_limiting(case, step, chosen, owns)
    if named:
        return Verdict(Outcome.SLIP, named)
    return Verdict(Outcome.WRONG, words.WRONG_LIMITING)


def limiting_reagent(case: Case, step: str, values: Mapping[str, float]) -> str:
    """
    Return the reagent that runs out first.

    Parameters
    ----------
    case : Case
        For the amounts that decide, and the coefficients.
    step : str
        The step that asks.
    values : mapping of str to float
        The amounts of the reagents [mol].

    Returns
    -------
    str
        A species.
    """
    amounts = case.graph.lab.key.limiting[step]
    first = next(iter(amounts))
    equation = case.graph.equation_of(*amounts)
    return min(
        amounts,
        key=lambda species: (
            values[amounts[species]] / float(equation.ratio(species, first))
        ),
    )
