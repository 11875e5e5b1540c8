"""The place to answer a number: one box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.box import BoxPad
from workbook.front.entry import label_answer

if TYPE_CHECKING:
    from workbook.front.bell import Bell
    from workbook.wire.sheet import NumberStep


class NumberPad(BoxPad):
    """
    One text box; unit and figures are typed with the number.

    Parameters
    ----------
    step : NumberStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: NumberStep, bell: Bell) -> None:
        super().__init__(label_answer(step.unit), bell)
