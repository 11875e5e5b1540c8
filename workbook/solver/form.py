"""The steps of a sheet that ask for no one number, as a student is shown them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.labfile.form import TextForm
from workbook.wire.sheet import ChoiceStep, Option, PredictionStep, TextStep

if TYPE_CHECKING:
    from workbook.labfile.half import Ask
    from workbook.wire.sheet import Step

#: How close an answer must come, where it is not judged.
_ANY = "Accepted: any answer. The first one that you commit to stands."
_BY_A_PERSON = "A person reads and marks it; the latest text that you keep counts."


def write_form(ask: Ask) -> Step:
    """
    Return a step that asks for no quantity.

    Parameters
    ----------
    ask : Ask
        The step, as a student may know it.

    Returns
    -------
    Step
        As it is shown.
    """
    match ask.form:
        case TextForm(prompts=prompts):
            return TextStep(
                id=ask.id, asks=ask.asks, allowance=_BY_A_PERSON, prompts=prompts
            )
    options = tuple(Option(key, text) for key, text in ask.options)
    if ask.kind == "prediction":
        return PredictionStep(id=ask.id, asks=ask.asks, allowance=_ANY, options=options)
    return ChoiceStep(id=ask.id, asks=ask.asks, options=options, several=ask.several)
