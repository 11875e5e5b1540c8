"""The place to tick one option, or several."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import Checkbox, RadioButtons, VBox

from workbook.front.widget import make
from workbook.wire.answer import Answer, Chosen

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.front.pad import Pad
    from workbook.wire.sheet import ChoiceStep, Option


class OnePad:
    """
    Radio buttons: one option at most.

    Parameters
    ----------
    options : tuple of Option
        What can be ticked.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, options: tuple[Option, ...], bell: Bell) -> None:
        self._known = {option.id for option in options}
        labels = [(option.text, option.id) for option in options]
        self.buttons = make(RadioButtons, options=labels, value=None, css="wb-ticks")
        self.buttons.observe(lambda _: bell.change(), names="value")

    @property
    def body(self) -> tuple[Widget, ...]:
        """The radio buttons."""
        return (self.buttons,)

    def read(self) -> Chosen:
        """
        Return what is ticked.

        Returns
        -------
        Chosen
            One option, or none.
        """
        ticked = self.buttons.value
        return Chosen(() if ticked is None else (str(ticked),))

    def write(self, answer: Answer) -> None:
        """
        Put an earlier tick back.

        Parameters
        ----------
        answer : Answer
            A choice; any other kind is left out, and so are options that the sheet
            does not have.
        """
        if isinstance(answer, Chosen):
            known = [option for option in answer.options if option in self._known]
            self.buttons.value = known[0] if known else None


class SeveralPad:
    """
    A check box for each option.

    Parameters
    ----------
    step : ChoiceStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: ChoiceStep, bell: Bell) -> None:
        self.ticks = {
            option.id: make(Checkbox, description=option.text, indent=False)
            for option in step.options
        }
        for tick in self.ticks.values():
            tick.observe(lambda _: bell.change(), names="value")
        self.box = make(VBox, tuple(self.ticks.values()), css="wb-ticks")

    @property
    def body(self) -> tuple[Widget, ...]:
        """The check boxes, in a box of their own."""
        return (self.box,)

    def read(self) -> Chosen:
        """
        Return what is ticked.

        Returns
        -------
        Chosen
            In the order of the sheet.
        """
        return Chosen(tuple(name for name, tick in self.ticks.items() if tick.value))

    def write(self, answer: Answer) -> None:
        """
        Put earlier ticks back.

        Parameters
        ----------
        answer : Answer
            A choice; any other kind is left out.
        """
        if isinstance(answer, Chosen):
            for name, tick in self.ticks.items():
                tick.value = name in answer.options


def choose_pad(step: ChoiceStep, bell: Bell) -> Pad:
    """
    Return the place to tick that a step wants.

    Parameters
    ----------
    step : ChoiceStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes.

    Returns
    -------
    Pad
        Radio buttons for one option, check boxes for several.
    """
    return SeveralPad(step, bell) if step.several else OnePad(step.options, bell)
