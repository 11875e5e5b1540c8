"""
The worked answer of a step: for who has tried it in practice, or was marked.

It holds the key: in a course it is made for the page that is handed back, and never
before.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.graph.symbol import write_out_ratios
from workbook.judge.own import Own, own_of
from workbook.judge.worked import print_value, work
from workbook.relation.latex import name_to_latex, set_text, to_latex
from workbook.relation.text import ALOUD, to_text
from workbook.relation.tree import names
from workbook.wire.message import WorkedLine

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case

_SHOWN = "The instrument shows {value}."
_OWN = "This is your own reading, {value}; there is nothing to work out."


def explain(case: Case, step: str) -> tuple[WorkedLine, ...]:
    """
    Return the worked answer of a step.

    Parameters
    ----------
    case : Case
        The copy of the lab, with its true values.
    step : str
        A step of the lab.

    Returns
    -------
    tuple of WorkedLine
        For a number its relation in words, the numbers in it, and its value; before
        them the same for whatever it follows from that no step asks for.
    """
    return explain_all(case, only=step)[step]


def explain_all(
    case: Case, *, only: str | None = None
) -> dict[str, tuple[WorkedLine, ...]]:
    """
    Return the worked answer of every step.

    Parameters
    ----------
    case : Case
        The copy of the lab, with its true values.
    only : str or None
        A step, where the others are not wanted.

    Returns
    -------
    dict of str to tuple of WorkedLine
        By step, in the order of the sheet; each as `explain` gives it.
    """
    explainer = _Explainer(case)
    asks = [a for a in case.graph.lab.public.asks if only in {None, a.id}]
    others = {each.step_id: each for each in work(case)}
    lines: dict[str, tuple[WorkedLine, ...]] = {}
    for ask in asks:
        if ask.of is None:
            values = others[ask.id].value_text.split("; ")
            lines[ask.id] = tuple(WorkedLine("", each) for each in values)
        else:
            lines[ask.id] = tuple(explainer.explain(case.graph.quantities[ask.of]))
    return lines


class _Explainer:
    def __init__(self, case: Case) -> None:
        self._case = case
        self._asked = case.graph.lab.public.asked
        self._owns: dict[str, Own] = {}
        for quantity in case.graph.quantities.values():
            self._owns[quantity.name] = own_of(case, quantity, self._owns)

    def explain(self, quantity: Quantity) -> Iterator[WorkedLine]:
        value = self._value(quantity.name)
        relation = quantity.relation
        if quantity.origin is Origin.READING or relation is None:
            said = _OWN if quantity.is_own else _SHOWN
            yield WorkedLine("", said.format(value=value))
            return
        inputs = names(relation)
        for name in inputs:
            yield from self._explain_unasked(name)
        written = write_out_ratios(self._case.graph, relation)
        label = self._say(quantity.name)
        words = {name: _set_name(self._say(name), name) for name in inputs}
        values = {name: _set_value(self._value(name)) for name in inputs}
        # On a line of its own, so that the relation fits a narrow screen.
        yield WorkedLine(_set_name(label, quantity.name), label)
        yield WorkedLine(
            f"= {to_latex(written, names=words)}",
            f"= {to_text(written, self._say, ALOUD)}",
        )
        yield WorkedLine(
            f"= {to_latex(written, names=values)}",
            f"= {to_text(written, self._value, ALOUD)}",
        )
        yield WorkedLine(f"= {_set_value(value)}", f"= {value}")

    def _explain_unasked(self, name: str) -> Iterator[WorkedLine]:
        quantity = self._case.graph.quantities[name]
        if quantity.origin is Origin.DERIVED and name not in self._asked:
            yield from self.explain(quantity)

    def _value(self, name: str) -> str:
        quantity = self._case.graph.quantities[name]
        return print_value(self._case, quantity, self._owns[name])

    def _say(self, name: str) -> str:
        """Return what a quantity is called, also one that no sheet labels."""
        public = self._case.graph.lab.public
        if name in public.labels:
            return public.labels[name].text
        owner, _, constant = name.rpartition(".")
        if owner in public.species:
            return f"{constant.replace('_', ' ')} of {public.species[owner].name}"
        return name.replace("_", " ")


def _set_name(label: str, name: str) -> str:
    # The molar mass of a piece, M(C3H5), is set as the formula that it is.
    return name_to_latex(name) if "(" in name else set_text(label)


def _set_value(value: str) -> str:
    number, _, unit = value.partition(" ")
    if unit.startswith("× 10^"):
        power, _, unit = unit.removeprefix("× 10^").partition(" ")
        number = rf"{number} \times 10^{{{power}}}"
    shown = rf"{number}\ {set_text(unit)}" if unit else number
    return rf"\left({shown}\right)" if number.startswith("-") else shown
