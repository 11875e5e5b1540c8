"""
What is right where no quantity is asked, in words.

For an instructor's answer book; it holds the key.
"""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.judge.choice import limiting_reagent
from workbook.labfile.form import RangeForm, rows_of
from workbook.labfile.order import arrange, precede
from workbook.measure.rounding import round_place, write

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.judge.case import Case
    from workbook.labfile.form import TableForm
    from workbook.labfile.half import Ask

_NOTHING = "nothing"
#: Of what rests on readings that are not noted.
FROM_OWN = "follows from the student's own readings"
_ANY = "Any answer: the first one stands."
_A_PERSON = "A person marks it."


def say_right(case: Case, ask: Ask) -> str:
    """
    Return the right answer to a step that asks for no quantity.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    ask : Ask
        The step.

    Returns
    -------
    str
        One line; of an order one that is right, of a text, what earns its marks.
    """
    key = case.graph.lab.key
    texts = dict(ask.options)
    match ask.kind:
        case "matching":
            said = _say_matching(case, ask, texts)
        case "mechanism":
            left_out = key.decoys[ask.id]
            kept = {card: text for card, text in texts.items() if card not in left_out}
            said = _say_order(case, ask, kept)
        case "order":
            said = _say_order(case, ask, texts)
        case "prediction":
            said = _ANY
        case "range" if isinstance(ask.form, RangeForm):
            said = say_range(case, ask.form)
        case "text":
            said = " ".join((_A_PERSON, *key.look_for[ask.id]))
        case _ if ask.id in key.limiting:
            said = _say_least(case, ask.id, texts)
        case _:
            said = "; ".join(texts[option] for option in key.right[ask.id])
    return said


def _say_matching(case: Case, ask: Ask, texts: Mapping[str, str]) -> str:
    belongs = case.graph.lab.key.belongs[ask.id]
    rows = (
        f"{name}: {', '.join(texts[option] for option in belongs[row]) or _NOTHING}"
        for row, name in rows_of(ask.form).items()
    )
    return "; ".join(rows)


def _say_order(case: Case, ask: Ask, texts: Mapping[str, str]) -> str:
    pairs = precede(case.graph.lab.key.before[ask.id])
    return "; ".join(texts[card] for card in arrange(tuple(texts), pairs))


def say_range(case: Case, form: RangeForm) -> str:
    """
    Return a range as it is read off the instruments.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    form : RangeForm
        The readings of its ends.

    Returns
    -------
    str
        With its unit: ``"131.2-134.0 °C"``.
    """
    ends = []
    for name in form.of:
        quantity = case.graph.quantities[name]
        shown = Decimal(repr(quantity.from_base(case.values[name])))
        place = quantity.instrument.place if quantity.instrument else 0
        ends.append(write(round_place(shown, place, case.convention.ties)))
    return f"{ends[0]}-{ends[1]} {form.unit}"


def say_limiting(case: Case, step: str, form: TableForm) -> str:
    """
    Return which reagent of a table limits.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    step : str
        The step.
    form : TableForm
        The table.

    Returns
    -------
    str
        What the table calls it.
    """
    return _say_least(case, step, dict(form.rows))


def _say_least(case: Case, step: str, texts: Mapping[str, str]) -> str:
    if not case.missing.isdisjoint(case.graph.lab.key.limiting[step].values()):
        return FROM_OWN
    return texts[limiting_reagent(case, step, case.values)]
