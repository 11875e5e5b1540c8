"""How many attempts a step has, and what each of them costs."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated

from pydantic import Field

from workbook.labfile.point import Share
from workbook.labfile.table import Table

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
