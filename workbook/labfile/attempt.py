"""How many attempts a step has, and what each of them costs."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from workbook.labfile.point import Share
from workbook.labfile.table import Table

if TYPE_CHECKING:
    from workbook.labfile.half import Ask, PublicHalf

#: Kinds of step that are answered once, or by a text that a person reads.
_WITHOUT_ATTEMPTS = frozenset({"prediction", "text"})

_Count = Annotated[int, Field(ge=0, le=1000, strict=True)]


class AttemptRule(Table):
    """``[marks.attempts.prelab]`` and ``[marks.attempts.postlab]``."""

    #: Attempts that count, from the first on; 0 for any number.
    most: _Count = 0
    #: Attempts that cost nothing.
    free: Annotated[int, Field(ge=1, le=1000, strict=True)] = 1
    #: The share of a step's points that each further attempt takes.
    takes: Share = Decimal(0)


class AttemptsTable(Table):
    """``[marks.attempts]``: what more than one attempt costs."""

    prelab: AttemptRule = AttemptRule()
    postlab: AttemptRule = AttemptRule()
    #: Attempts that count at single steps, by lab and step.
    steps: dict[str, dict[str, _Count]] = Field(default_factory=dict)


def find_rule(attempts: AttemptsTable, public: PublicHalf, ask: Ask) -> AttemptRule:
    """
    Return what more than one attempt at a step costs.

    Parameters
    ----------
    attempts : AttemptsTable
        Of the course file.
    public : PublicHalf
        The lab.
    ask : Ask
        One of its steps.

    Returns
    -------
    AttemptRule
        That of its part of the sheet, with the step's own limit where it has one.
    """
    if ask.kind in _WITHOUT_ATTEMPTS:
        return AttemptRule()
    rule = attempts.prelab if ask in public.prelab else attempts.postlab
    own = attempts.steps.get(public.name, {}).get(ask.id)
    return rule if own is None else rule.model_copy(update={"most": own})


def find_limits(attempts: AttemptsTable, public: PublicHalf) -> dict[str, int]:
    """
    Return how many attempts count at each step that limits them.

    Parameters
    ----------
    attempts : AttemptsTable
        Of the course file.
    public : PublicHalf
        The lab.

    Returns
    -------
    dict of str to int
        By step [-].
    """
    found = {ask.id: find_rule(attempts, public, ask).most for ask in public.asks}
    return {step: most for step, most in found.items() if most}
