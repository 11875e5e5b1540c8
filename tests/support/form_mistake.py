"""Wrong answers to the steps of the olive-oil lab that ask for no one number."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from tests.support.soap import CHOSEN
from workbook.wire.answer import (
    Answer,
    Chosen,
    Filled,
    Filling,
    Match,
    Matched,
    Ordered,
    Typed,
)

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from workbook.labfile.half import Ask

#: A wrong answer to each; a prediction and a text can't be wrong, only given.
WRONG_FORMS: dict[str, Answer] = {
    "trial": Filled(
        (
            Filling("oil", "amount", "0.07777 mol"),
            Filling("lye", "amount", "0.01777 mol"),
            Filling("lye", "equivalents", "77.77"),
        )
    ),
    "other_statements": Matched((Match("oil", ("H226",)), Match("acid", ("H314",)))),
    "protection": Matched((Match("splash", ("plugs",)), Match("drops", ("plugs",)))),
    "streams": Matched((Match("oil", ("solid",)), Match("brine", ("solid",)))),
    "pressing": Ordered(("pour", "paper", "water_on")),
    "saponification": Ordered(("in_acid", "lye_adds")),
    "salting_out": Chosen(("gas",)),
    "observations": Typed("Nothing happened."),
    "discussion": Typed("Somebody was careless."),
}

#: Kinds of step at which every answer is as good as another.
NEVER_WRONG = frozenset({"prediction", "text"})


def make_form_mistakes(ask: Ask, chance: random.Random) -> Iterator[Answer]:
    """
    Give wrong answers to a step that asks for no one number, without an end.

    Parameters
    ----------
    ask : Ask
        A table, a matching, an order or a mechanism of the olive-oil lab.
    chance : random.Random
        Decides what is wrong.

    Yields
    ------
    Answer
        Of the step's kind.
    """
    while True:
        match WRONG_FORMS[ask.id]:
            case Filled(cells):
                numbers = (f"{chance.uniform(7.1, 7.9):.4f}" for _ in cells)
                pairs = zip(cells, numbers, strict=True)
                filled = (Filling(cell.row, cell.column, n) for cell, n in pairs)
                yield Filled(tuple(filled))
            case Matched():
                yield _match_wrongly(ask, chance)
            case Ordered():
                # The last of all comes first: no order of theirs begins with it.
                yield _order_wrongly(ask, chance)


def _match_wrongly(ask: Ask, chance: random.Random) -> Matched:
    right = CHOSEN[ask.id]
    assert isinstance(right, Matched)
    names = [name for name, _ in ask.options]
    return Matched(
        tuple(
            Match(row.row, (chance.choice([n for n in names if n not in row.options]),))
            for row in right.matches
        )
    )


def _order_wrongly(ask: Ask, chance: random.Random) -> Ordered:
    right = CHOSEN[ask.id]
    assert isinstance(right, Ordered)
    first, *others = right.cards[::-1]
    mixed = chance.sample(others, k=chance.randint(1, len(others)))
    return Ordered(tuple(itertools.chain([first], mixed)))
