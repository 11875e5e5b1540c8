"""The place to answer a range: one box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.box import BoxPad

if TYPE_CHECKING:
    from workbook.front.bell import Bell
    from workbook.wire.sheet import RangeStep


class RangePad(BoxPad):
    """
    One text box for both ends and their unit.

    Parameters
    ----------
    step : RangeStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: RangeStep, bell: Bell) -> None:
        label = f"Your range, from low to high, with its unit ({step.unit})"
        super().__init__(label, bell)
