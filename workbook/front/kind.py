"""Which place to answer each kind of step has."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.algebra import AlgebraPad
from workbook.front.chain import ChainPad
from workbook.front.choice import choose_pad
from workbook.front.number import NumberPad
from workbook.front.prediction import PredictionPad
from workbook.front.reading import ReadingPad
from workbook.front.text import TextPad
from workbook.wire.sheet import (
    AlgebraStep,
    ChainStep,
    ChoiceStep,
    NumberStep,
    PredictionStep,
    ReadingStep,
    TextStep,
)

if TYPE_CHECKING:
    from workbook.front.bell import Bell
    from workbook.front.pad import Pad
    from workbook.wire.sheet import Step


def make_pad(step: Step, bell: Bell) -> Pad:
    """
    Return the place to answer that a step wants.

    Parameters
    ----------
    step : Step
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.

    Returns
    -------
    Pad
        One kind for each kind of step.
    """
    pad: Pad
    match step:
        case ReadingStep():
            pad = ReadingPad(step, bell)
        case NumberStep():
            pad = NumberPad(step, bell)
        case ChainStep():
            pad = ChainPad(step, bell)
        case AlgebraStep():
            pad = AlgebraPad(step, bell)
        case ChoiceStep():
            pad = choose_pad(step, bell)
        case PredictionStep():
            pad = PredictionPad(step, bell)
        case TextStep():
            pad = TextPad(step, bell)
    return pad
