"""The steps of a sheet that ask for no one number, as a student is shown them."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from workbook.labfile.form import TextForm
from workbook.wire.sheet import ChoiceStep, Option, OrderStep, PredictionStep, TextStep

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.labfile.half import Ask
    from workbook.wire.sheet import SheetId, Step

#: How close an answer must come, where it is not judged.
_ANY = "Accepted: any answer. The first one that you commit to stands."
_BY_A_PERSON = "A person reads and marks it; the latest text that you keep counts."


def write_form(ask: Ask, sheet: SheetId) -> Step:
    """
    Return a step that asks for no quantity.

    Parameters
    ----------
    ask : Ask
        The step, as a student may know it.
    sheet : SheetId
        Whose it is: cards are mixed in another way for each.

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
    if ask.kind == "order":
        return OrderStep(id=ask.id, asks=ask.asks, cards=mix(options, sheet, ask.id))
    if ask.kind == "prediction":
        return PredictionStep(id=ask.id, asks=ask.asks, allowance=_ANY, options=options)
    return ChoiceStep(id=ask.id, asks=ask.asks, options=options, several=ask.several)


def mix(cards: Iterable[Option], sheet: SheetId, step: str) -> tuple[Option, ...]:
    """
    Return cards in an order that tells nothing of the right one.

    Parameters
    ----------
    cards : iterable of Option
        In any order, which does not count.
    sheet : SheetId
        Whose they are.
    step : str
        Where they stand.

    Returns
    -------
    tuple of Option
        The same at every call; it rests on what the student can see as well.
    """

    def place(card: Option) -> bytes:
        seen = f"{sheet.course}/{sheet.lab}/{sheet.student}/{step}/{card.id}"
        return hashlib.sha256(seen.encode()).digest()

    return tuple(sorted(cards, key=place))
