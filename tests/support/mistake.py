"""Wrong answers to the olive-oil lab: one a step for a run, and any number of them."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from tests.support.form_mistake import WRONG_FORMS, make_form_mistakes
from tests.support.soap import LYE_DENSITY, LYE_SHARE, OIL, OIL_DENSITY
from workbook.wire.answer import Answer, Built, Chosen, Derived, Placed, Typed

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from workbook.judge.case import Case
    from workbook.labfile.half import Ask
#: How many of the wrong answers are odd ones [-].
_ODD_SHARE = 0.1

#: What is typed wrongly at each step, in g, mL, mol, g/mol and %: nothing but sevens,
#: which are no digits of anything right.
WRONG_NUMBERS = {
    "planned_oil_volume": ("17.77", "mL"),
    "planned_oil_amount": ("0.01777", "mol"),
    "lye_needed": ("0.07777", "mol"),
    "lye_needed_volume": ("7.777", "mL"),
    "oil_volume": ("17.7", "mL"),
    "lye_volume": ("17.7", "mL"),
    "dish": ("47.77", "g"),
    "dish_and_soap": ("57.14", "g"),
    "oil_mass": ("7.777", "g"),
    "oil_amount": ("0.01777", "mol"),
    "lye_amount": ("0.07777", "mol"),
    "soap.molar_mass": ("377.77", "g/mol"),
    "soap_amount": ("0.07777", "mol"),
    "theoretical_yield": ("17.77", "g"),
    "soap_mass": ("7.77", "g"),
    "percent_yield": ("77.77", "%"),
    "lye_left": ("0.01777", "mol"),
    "acid_mass": ("1.777", "g"),
}

WRONG_TICKS = {
    "lye_statements": ("H225", "H290"),
    "splash": ("acid",),
    "brine_waste": ("sink",),
    "limiting": ("lye",),
}

#: Mistakes that students make, as factors: a density or a coefficient left out, turned
#: over, used twice; a molar mass forgotten; a power of ten; and values not far off.
#: None is nearer than a sixth: what is left over is known to a tenth only.
_FACTORS = (
    *(OIL_DENSITY**2, OIL_DENSITY**-2),
    *(LYE_DENSITY**power for power in (-2, -1, 1, 2)),
    *(1 / 9, 1 / 3, 3, 9, LYE_SHARE, 1 / LYE_SHARE),
    *(OIL, 1 / OIL, 0.001, 0.1, 10, 1000, 100),
    *(0.77, 1.23, 1.9, -1),
)

#: What can't be read, asks for something else, or is beyond all bounds.
_ODD = (
    "",
    "a lot",
    "1,500 g",
    "7 K",
    "1e400 g",
    "0 g",
    "7.7.7 mL",
    "-",
    "7e-9",
    "7" * 60,
)


def answer_wrongly(step: str) -> Answer:
    """Return the wrong answer to a step."""
    if step in WRONG_FORMS:
        return WRONG_FORMS[step]
    if step in WRONG_TICKS:
        return Chosen(WRONG_TICKS[step])
    number, unit = WRONG_NUMBERS[step]
    return _wrap(step, f"{number} {unit}")


def make_mistakes(case: Case, ask: Ask, chance: random.Random) -> Iterator[Answer]:
    """
    Give wrong answers to one step, without an end.

    Parameters
    ----------
    case : Case
        Right values, from which mistakes go out.
    ask : Ask
        The step.
    chance : random.Random
        Decides figures and factors.

    Yields
    ------
    Answer
        Of the step's kind.
    """
    if ask.id in WRONG_FORMS:
        yield from make_form_mistakes(ask, chance)
    if ask.of is None:
        for ticks in itertools.cycle(_list_wrong_ticks(case, ask)):
            yield Chosen(ticks)
    quantity = case.graph.quantities[ask.of or ask.id]
    right = quantity.from_base(case.values[quantity.name])
    while True:
        wrong = right * chance.choice(_FACTORS) * chance.uniform(0.98, 1.02)
        text = f"{wrong:#.{chance.randint(3, 6)}g} {quantity.unit.symbol}"
        is_odd = chance.random() < _ODD_SHARE
        yield _wrap(ask.id, chance.choice(_ODD) if is_odd else text)


def _list_wrong_ticks(case: Case, ask: Ask) -> list[tuple[str, ...]]:
    key = case.graph.lab.key
    right = set(key.right.get(ask.id, ("oil",)))
    names = [name for name, _ in ask.options]
    most = len(names) if ask.several else 1
    sizes = range(most + 1)
    ways = [way for size in sizes for way in itertools.combinations(names, size)]
    return [way for way in ways if set(way) != right]


def _wrap(step: str, text: str) -> Answer:
    """Put a text into the kind of answer that a step takes, the working wrong too."""
    if step == "soap.molar_mass":
        return Derived(("soap = oil / 3", "soap = 7 x"), text)
    if step in _START:
        return Built((Placed(_START[step], turned=False),) * 2, text)
    return Typed(text)


#: A factor of each chain; placed twice it is wrong.
_START = {
    "planned_oil_volume": "oil.density",
    "planned_oil_amount": "oil.molar_mass",
    "lye_needed": "ratio(lye, oil)",
    "oil_mass": "oil.density",
    "oil_amount": "oil.molar_mass",
    "soap_amount": "ratio(soap, oil)",
}
