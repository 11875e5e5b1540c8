"""The steps of a sheet that ask for no one number, as a student is shown them."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, TypedDict, TypeVar

from workbook.labfile.form import MatchingForm, MechanismForm, RangeForm, TextForm
from workbook.matter.change import write_side
from workbook.wire.sheet import (
    ChoiceStep,
    MatchingStep,
    MechanismStep,
    Move,
    Option,
    OrderStep,
    PredictionStep,
    RangeStep,
    Side,
    TextStep,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from workbook.labfile.form import MoveForm
    from workbook.labfile.half import Ask
    from workbook.wire.sheet import SheetId, Step

#: How close an answer must come, where it is not judged.
_ANY = "Accepted: any answer. The first one that you commit to stands."
_AS_READ = "Accepted: your own two readings, the lower one first."
_BY_A_PERSON = "A person reads and marks it; the latest text that you keep counts."


_Card = TypeVar("_Card", Option, Move)


class _Shared(TypedDict):
    """What every step has."""

    id: str
    asks: str


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
    shared: _Shared = {"id": ask.id, "asks": ask.asks}
    options = _list(ask.options)
    match ask.form:
        case TextForm(prompts=prompts):
            return TextStep(**shared, allowance=_BY_A_PERSON, prompts=prompts)
        case MatchingForm(rows=rows):
            several = ask.several
            return MatchingStep(
                **shared, rows=_list(rows), options=options, several=several
            )
        case MechanismForm(moves=moves):
            cards = [_write_move(key, move) for key, move in moves.items()]
            return MechanismStep(**shared, cards=mix(cards, sheet, ask.id))
    return _write_plain(ask, options, sheet)


def _write_plain(ask: Ask, options: tuple[Option, ...], sheet: SheetId) -> Step:
    """Return a step that shows a list at most."""
    shared: _Shared = {"id": ask.id, "asks": ask.asks}
    if isinstance(ask.form, RangeForm):
        return RangeStep(**shared, allowance=_AS_READ, unit=ask.form.unit)
    match ask.kind:
        case "order":
            return OrderStep(**shared, cards=mix(options, sheet, ask.id))
        case "prediction":
            return PredictionStep(**shared, allowance=_ANY, options=options)
    return ChoiceStep(**shared, options=options, several=ask.several)


def _list(texts: Iterable[tuple[str, str]]) -> tuple[Option, ...]:
    return tuple(Option(key, text) for key, text in texts)


def _write_move(key: str, move: MoveForm) -> Move:
    change = move.change
    sides = change.takes, change.gives
    takes, gives = (Side(dict(s.species), dict(s.atoms), s.charge) for s in sides)
    printed = " \N{RIGHTWARDS ARROW} ".join(write_side(side.species) for side in sides)
    return Move(key, move.text, printed, change.said, takes, gives)


def mix(cards: Iterable[_Card], sheet: SheetId, step: str) -> tuple[_Card, ...]:
    """
    Return cards in an order that tells nothing of the right one.

    Parameters
    ----------
    cards : iterable of Option or of Move
        In any order, which does not count.
    sheet : SheetId
        Whose they are.
    step : str
        Where they stand.

    Returns
    -------
    tuple of Option or of Move
        The same at every call; it rests on what the student can see as well.
    """

    def place(card: _Card) -> bytes:
        seen = f"{sheet.course}/{sheet.lab}/{sheet.student}/{step}/{card.id}"
        return hashlib.sha256(seen.encode()).digest()

    return tuple(sorted(cards, key=place))
