"""
A whole graph as NumPy functions, for all students of a class at once.

Each relation becomes one function by SymPy's ``lambdify``. They stay apart, and
are not put into one expression, because a derived reading is rounded to what its
instrument shows before anything follows from it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial, reduce
from typing import TYPE_CHECKING, TypeAlias

import numpy as np
import sympy
from sympy.printing.numpy import NumPyPrinter

from workbook.graph.concordance import concordant_column
from workbook.graph.quantity import Origin
from workbook.graph.symbol import to_symbols
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from workbook.graph.quantity import Graph, Quantity
    from workbook.relation.tree import Node

Column: TypeAlias = "NDArray[np.float64]"

#: What a compiled relation calls, by the names that SymPy prints. Asked for all of
#: NumPy, SymPy would load parts of it that nobody calls, which takes long.
_FUNCTIONS: Mapping[str, object] = {
    "concordant": concordant_column,
    "exp10": partial(np.power, 10.0),
    "log": np.log,
    "maximum": np.maximum,
    "minimum": np.minimum,
    "reduce": reduce,
    "sqrt": np.sqrt,
}

#: Names are printed as they stand in that table.
_PLAIN = {
    "fully_qualified_modules": False,
    "inline": True,
    "user_functions": {"concordant": "concordant", "exp10": "exp10"},
}


@dataclass(frozen=True, slots=True)
class _Compiled:
    quantity: Quantity
    inputs: tuple[str, ...]
    function: Callable[..., Column]


class CompiledGraph:
    """
    A graph that solves a class in one go.

    Parameters
    ----------
    graph : Graph
        What is to be solved.
    """

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self._constants = {
            name: quantity.to_base(float(quantity.constant.value))
            for name, quantity in graph.quantities.items()
            if quantity.constant is not None
        }
        self._compiled = tuple(
            _compile(graph, quantity, quantity.relation)
            for quantity in graph.quantities.values()
            if quantity.relation is not None
        )

    def solve(self, drawn: Mapping[str, Column]) -> dict[str, Column]:
        """
        Return every quantity of every student.

        Parameters
        ----------
        drawn : mapping of str to array, (n_students,)
            Every drawn quantity, in base units.

        Returns
        -------
        dict of str to array, (n_students,)
            Every quantity but the constants' columns, which are scalars of shape
            (), in base units; NaN or infinite where a relation has no value.
        """
        values: dict[str, Column] = {
            name: np.asarray(value) for name, value in self._constants.items()
        }
        values.update(drawn)
        with np.errstate(all="ignore"):
            for each in self._compiled:
                column = np.asarray(
                    each.function(*(values[name] for name in each.inputs))
                )
                values[each.quantity.name] = round_reading(each.quantity, column)
        return values


def _compile(graph: Graph, quantity: Quantity, relation: Node) -> _Compiled:
    inputs = names(relation)
    # Named anew, or a quantity called "log" would hide the function.
    arguments = [sympy.Symbol(f"input_{index}") for index in range(len(inputs))]
    renamed = dict(zip(map(sympy.Symbol, inputs), arguments, strict=True))
    expression = to_symbols(graph, relation).xreplace(renamed)
    function = sympy.lambdify(
        arguments, expression, modules=[_FUNCTIONS], printer=NumPyPrinter(_PLAIN)
    )
    return _Compiled(quantity, inputs, function)


def round_reading(quantity: Quantity, column: Column) -> Column:
    """
    Return what an instrument shows; anything but a derived reading is left alone.

    Parameters
    ----------
    quantity : Quantity
        What the values are of.
    column : array, (n_students,)
        In base units.

    Returns
    -------
    array, (n_students,)
        In base units, rounded to the instrument's smallest step.
    """
    if quantity.origin is not Origin.READING or quantity.instrument is None:
        return column
    shown = np.round(quantity.from_base(column), -quantity.instrument.place)
    return quantity.to_base(shown)
