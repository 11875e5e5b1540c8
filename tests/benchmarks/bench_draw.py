"""
Students per second for drawing and solving a lab, beside SymPy student by student.

Run as ``python tests/benchmarks/bench_draw.py``; pytest does not collect it.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

import numpy as np
import sympy

from workbook.draw.key import CourseKey
from workbook.draw.sample import draw_class
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph, round_reading
from workbook.graph.symbol import to_symbols
from workbook.labfile.reader import read_lab
from workbook.matter.elements import load_weights
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from workbook.draw.sample import ClassDraw
    from workbook.graph.quantity import Graph

LAB = Path(__file__).parents[2] / "exercises" / "olive-oil-soap"
SIZES = (100, 10_000, 100_000)

#: Substituting is so slow that a sample of the class stands for it.
SAMPLE = 100

#: Each figure is the best of so many runs: what the machine can do undisturbed.
RUNS = 3


def time_of(work: Callable[[], object]) -> float:
    """Return how long something takes [s], the best of a few runs."""
    best = float("inf")
    for _ in range(RUNS):
        start = perf_counter()
        work()
        best = min(best, perf_counter() - start)
    return best


class OneByOne:
    """
    A graph that is solved by substituting into SymPy, quantity after quantity.

    Its expressions are made once: only the substitution is timed.
    """

    def __init__(self, graph: Graph) -> None:
        self._constants = {
            name: quantity.to_base(float(quantity.constant.value))
            for name, quantity in graph.quantities.items()
            if quantity.constant is not None
        }
        self._expressions = [
            (quantity, to_symbols(graph, quantity.relation), names(quantity.relation))
            for quantity in graph.quantities.values()
            if quantity.relation is not None
        ]

    def solve(self, drawn: Mapping[str, float]) -> dict[str, float]:
        """Return every quantity of one student."""
        values = {**self._constants, **drawn}
        for quantity, expression, inputs in self._expressions:
            symbols = {sympy.Symbol(name): values[name] for name in inputs}
            value = np.array(float(expression.subs(symbols)))
            values[quantity.name] = float(round_reading(quantity, value))
        return values


def drawn_of(graph: Graph, drawn: ClassDraw, index: int) -> dict[str, float]:
    """Return what was drawn for a student, and nothing that follows from it."""
    values = drawn.of(index)
    return {n: values[n] for n, q in graph.quantities.items() if q.draw is not None}


def name_students(count: int) -> list[str]:
    """Return the ids of a class."""
    return [f"s{number}" for number in range(count)]


def time_one_by_one(graph: Graph, drawn: ClassDraw) -> float:
    """Return how long SymPy takes for a student [s]."""
    one_by_one = OneByOne(graph)
    count = len(drawn.students)
    sample = [drawn_of(graph, drawn, index) for index in range(count)]
    check(one_by_one.solve(sample[0]), drawn.of(0))
    return time_of(lambda: [one_by_one.solve(each) for each in sample]) / count


def check(found: Mapping[str, float], expected: Mapping[str, float]) -> None:
    """Refuse to time two things that give different values."""
    for name, value in expected.items():
        if not math.isclose(found[name], value, rel_tol=1e-9):
            msg = f"{name}: SymPy gives {found[name]!r}, the class {value!r}."
            raise ArithmeticError(msg)


def time_class(
    compiled: CompiledGraph, key: CourseKey, students: Sequence[str]
) -> tuple[float, float]:
    """Return how long a student takes to draw and solve, and to solve alone [s]."""
    drawn = draw_class(compiled, key, students)
    quantities = compiled.graph.quantities
    columns = {n: drawn.values[n] for n, q in quantities.items() if q.draw is not None}
    both = time_of(lambda: draw_class(compiled, key, students))
    solve = time_of(lambda: compiled.solve(columns))
    return both / len(students), solve / len(students)


def main() -> None:
    """Print a line for each size of a class."""
    graph = build_graph(read_lab(LAB), load_weights("2021 abridged"))
    compiled, key = CompiledGraph(graph), CourseKey(bytes(range(32)))
    relations = sum(q.relation is not None for q in graph.quantities.values())
    draws = sum(q.draw is not None for q in graph.quantities.values())
    out = sys.stdout
    out.write(f"{LAB.name}: {draws} values drawn, {relations} relations\n")
    slow = time_one_by_one(graph, draw_class(compiled, key, name_students(SAMPLE)))
    out.write(
        f"SymPy, a sample of {SAMPLE} students one by one: {1 / slow:,.0f} students/s\n"
    )
    for size in SIZES:
        both, solve = time_class(compiled, key, name_students(size))
        out.write(
            f"{size:>7,} students: draw and solve {1 / both:>7,.0f} students/s, "
            f"{slow / both:,.0f} times as fast as SymPy solves; "
            f"solve alone {1 / solve:>11,.0f}, {slow / solve:,.0f} times as fast\n"
        )


if __name__ == "__main__":
    main()
