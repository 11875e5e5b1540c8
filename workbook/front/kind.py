"""Which place to answer each kind of step has."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from workbook.front.algebra import AlgebraPad
from workbook.front.chain import ChainPad
from workbook.front.choice import choose_pad
from workbook.front.held import HeldPad
from workbook.front.matching import MatchingPad
from workbook.front.mechanism import MechanismPad
from workbook.front.number import NumberPad
from workbook.front.order import OrderPad
from workbook.front.ownreading import OwnPad
from workbook.front.prediction import PredictionPad
from workbook.front.range import RangePad
from workbook.front.reading import ReadingPad
from workbook.front.reagents import ReagentsPad
from workbook.front.text import TextPad
from workbook.wire.sheet import (
    AlgebraStep,
    ChainStep,
    ChoiceStep,
    MatchingStep,
    MechanismStep,
    NumberStep,
    OrderStep,
    OwnStep,
    PredictionStep,
    RangeStep,
    ReadingStep,
    ReagentsStep,
    TextStep,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from workbook.front.bell import Bell
    from workbook.front.pad import Pad
    from workbook.wire.sheet import Step


def _choose_reading(step: ReadingStep, bell: Bell) -> Pad:
    """Return the instrument, or a sentence where it is not shown yet."""
    return ReadingPad(step, bell) if step.seen else HeldPad()


_PADS: Mapping[type[Step], Callable[[Any, Bell], Pad]] = {
    ReadingStep: _choose_reading,
    OwnStep: OwnPad,
    NumberStep: NumberPad,
    ChainStep: ChainPad,
    AlgebraStep: AlgebraPad,
    ChoiceStep: choose_pad,
    MatchingStep: MatchingPad,
    MechanismStep: MechanismPad,
    OrderStep: OrderPad,
    PredictionStep: PredictionPad,
    RangeStep: RangePad,
    ReagentsStep: ReagentsPad,
    TextStep: TextPad,
}


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
    return _PADS[type(step)](step, bell)
