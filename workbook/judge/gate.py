"""The gate before the lab: which of its steps are not right yet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge.judge import judge_sheet
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.judge.case import Case
    from workbook.wire.answer import Answer

#: What passes a gate. A digit too many endangers nobody; a value that only follows from
#: a wrong one may.
_PASSING = frozenset({Outcome.RIGHT, Outcome.FIGURES, Outcome.COMMITTED, Outcome.NOTED})


def find_missing(case: Case, answers: Mapping[str, Answer]) -> tuple[str, ...]:
    """
    Return the steps of the gate that are not right yet.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    answers : mapping of str to Answer
        The standing answers, by step.

    Returns
    -------
    tuple of str
        In the order of the steps; empty when the gate is passed.
    """
    verdicts = judge_sheet(case, answers)
    passed = {step for step, each in verdicts.items() if each.outcome in _PASSING}
    return tuple(s for s in case.graph.lab.public.gate if s not in passed)
