"""
The worked answer of every step: relation, numbers in it, result to its figures.

For an instructor's answer book; it holds the key.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.graph.symbol import write_out_ratios
from workbook.judge.own import Own, own_of
from workbook.judge.rightness import FROM_OWN, say_limiting, say_right
from workbook.judge.table import LIMITING
from workbook.labfile.form import TableForm
from workbook.measure.rounding import round_figures, round_place, write, write_power
from workbook.measure.units import ONE
from workbook.relation.text import to_text
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Mapping

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask
    from workbook.relation.tree import Node

#: Powers of ten between which a value is printed in plain digits.
_PLAIN_POWERS = range(-4, 6)

_OWN = "the student's own reading"


@dataclass(frozen=True, slots=True)
class Worked:
    """A step with its answer: not for a student's eyes."""

    step_id: str
    label: str
    #: The relation in names; empty for a reading, and where no quantity is asked.
    relation_text: str
    #: The same with the student's numbers in it.
    substituted_text: str
    #: The answer with its unit, to its proper figures.
    value_text: str


def work(case: Case) -> list[Worked]:
    """
    Return the worked answer of every step.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.

    Returns
    -------
    list of Worked
        In the order of the steps.
    """
    owns: dict[str, Own] = {}
    for quantity in case.graph.quantities.values():
        owns[quantity.name] = own_of(case, quantity, owns)
    return [_work(case, ask, owns) for ask in case.graph.lab.public.asks]


def _work(case: Case, ask: Ask, owns: Mapping[str, Own]) -> Worked:
    if isinstance(ask.form, TableForm):
        return _work_table(case, ask, ask.form, owns)
    if ask.of is None:
        return Worked(ask.id, ask.asks, "", "", say_right(case, ask))
    return _work_quantity(case, ask.id, ask.of, owns)


def _work_table(
    case: Case, ask: Ask, form: TableForm, owns: Mapping[str, Own]
) -> Worked:
    """Put the cells of a table one behind the other."""
    cells = [(c.text, _work_quantity(case, ask.id, c.of, owns)) for c in form.cells]
    values = [f"{name}: {cell.value_text}" for name, cell in cells]
    if form.asks_limiting:
        values.append(f"{LIMITING}: {say_limiting(case, ask.id, form)}")
    return Worked(
        step_id=ask.id,
        label=ask.asks,
        relation_text="; ".join(cell.relation_text for _, cell in cells),
        substituted_text="; ".join(cell.substituted_text for _, cell in cells),
        value_text="; ".join(values),
    )


def _work_quantity(
    case: Case, step_id: str, name: str, owns: Mapping[str, Own]
) -> Worked:
    quantity = case.graph.quantities[name]
    label = case.graph.lab.public.labels[name].text
    value = print_value(case, quantity, owns[name])
    if quantity.origin is Origin.READING or quantity.relation is None:
        return Worked(step_id, label, "", "", value)
    relation = quantity.relation
    numbers = {
        name: print_value(case, case.graph.quantities[name], owns[name])
        for name in names(relation)
    }
    return Worked(
        step_id=step_id,
        label=label,
        relation_text=to_text(relation, str),
        substituted_text=_substitute(case, relation, numbers),
        value_text=value,
    )


def _substitute(case: Case, relation: Node, numbers: Mapping[str, str]) -> str:
    return to_text(write_out_ratios(case.graph, relation), numbers.__getitem__)


def print_value(case: Case, quantity: Quantity, own: Own) -> str:
    """
    Return a value as it is printed: in its own unit, to its proper figures.

    Parameters
    ----------
    case : Case
        For the tie rule.
    quantity : Quantity
        What it is a value of.
    own : Own
        Where it stands.

    Returns
    -------
    str
        With its unit; in words where it rests on a reading that students bring.
    """
    if quantity.name in case.missing:
        return _OWN if quantity.is_own else FROM_OWN
    unit = quantity.unit.symbol if quantity.unit != ONE else ""
    number = Decimal(repr(quantity.from_base(own.value)))
    figures = own.known.figures
    if quantity.instrument is not None:
        number = round_place(number, quantity.instrument.place, case.convention.ties)
    elif figures:
        number = round_figures(number, figures, case.convention.ties)
    plain = number.adjusted() in _PLAIN_POWERS
    return f"{write(number) if plain else write_power(number)} {unit}".strip()
