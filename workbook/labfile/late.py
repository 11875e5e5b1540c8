"""What becomes of a hand-in that comes after its time; always of the total."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field, model_validator

from workbook.labfile.point import Points
from workbook.labfile.table import Table


class LateTable(Table):
    """``[marks.late]``: the rule for all labs of a course."""

    #: What is taken off: nothing, a share or points for each day begun, a share once,
    #: or everything.
    rule: Literal["nothing", "share a day", "points a day", "share once", "all"] = (
        "nothing"
    )
    #: The share, or the points.
    takes: Points = Decimal(0)
    #: A share is one of what was earned, or of what the lab is worth.
    of: Literal["earned", "worth"] = "earned"
    #: Minutes after the due time that cost nothing.
    grace_minutes: Annotated[int, Field(ge=0, le=100_000, strict=True)] = 0
    #: Days after the due time until which anything is earned: a number, 0 for no end,
    #: or "next lab" for the time at which the next lab of the course is due.
    until_days: (
        Annotated[int, Field(ge=0, le=1000, strict=True)] | Literal["next lab"]
    ) = 0

    @model_validator(mode="after")
    def _take_what_the_rule_takes(self) -> LateTable:
        takes_some = self.rule not in {"nothing", "all"}
        if takes_some and not self.takes:
            msg = f'the rule "{self.rule}" needs takes above 0'
            raise ValueError(msg)
        if self.takes and not takes_some:
            msg = f'the rule "{self.rule}" takes no number; leave takes out'
            raise ValueError(msg)
        if self.rule in {"share a day", "share once"} and self.takes > 1:
            msg = 'takes is a share from 0 to 1 here: "0.10" for 10 %'
            raise ValueError(msg)
        return self
