"""
What must be true across the tables of a lab file, one function a rule.

A rule yields findings and never raises: an author sees all that is wrong at
once. A finding names the place by its path of keys; the reader adds file and line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, TypeAlias

from workbook.errors import nearest
from workbook.labfile.chain import chains_can_be_built, ratios_in
from workbook.labfile.constant import constant_names, constants_measure
from workbook.labfile.ends import ranges_have_ends
from workbook.labfile.finding import Finding
from workbook.labfile.gate import gates_can_be_passed
from workbook.labfile.mechanism import mechanisms_can_be_laid
from workbook.labfile.order import orders_can_be_kept
from workbook.labfile.ownreading import own_readings_can_be_typed
from workbook.labfile.piece import molar_masses_have_pieces
from workbook.labfile.reach import steps_can_be_answered
from workbook.labfile.reaction import (
    OWN_REACTION,
    equations_balance,
    formulas_read,
    readable_equations,
    why_no_ratio,
)
from workbook.labfile.reading import readings_can_be_shown
from workbook.labfile.reagent import reagent_tables_can_be_filled
from workbook.labfile.schema import LabFile, QuantityTable, Reading
from workbook.labfile.source import sources_name_something
from workbook.labfile.statement import statements_are_word_for_word
from workbook.labfile.step import (
    molar_masses_are_asked,
    placed_steps,
    steps_are_single,
    steps_ask_what_exists,
    ties_fit,
    tolerances_fit,
)
from workbook.labfile.table import Named
from workbook.labfile.telling import answers_stand_apart, names_tell_nothing
from workbook.labfile.variant import variants_replace_what_is_there
from workbook.relation.tree import Node, names

if TYPE_CHECKING:
    from workbook.matter.equation import Equation

Rule: TypeAlias = Callable[[LabFile], Iterator[Finding]]

_TABLES = ("readings", "givens", "hidden", "quantities")


def _relations(file: LabFile) -> Iterator[tuple[str, str, Node]]:
    rows: dict[str, dict[str, Reading] | dict[str, QuantityTable]] = {
        "readings": file.readings,
        "quantities": file.quantities,
    }
    for table, each in rows.items():
        for key, row in each.items():
            if row.relation is not None:
                yield table, key, row.relation


def _names_are_single(file: LabFile) -> Iterator[Finding]:
    places: list[tuple[tuple[str | int, ...], str]] = [
        ((table, name), name)
        for table in (*_TABLES, "species")
        for name in getattr(file, table)
    ]
    places += [
        ((*place, "name"), step.name)
        for place, step in placed_steps(file)
        if isinstance(step, Named)
    ]
    count = Counter(name for _, name in places)
    for place, name in places:
        if count[name] > 1:
            yield place, f"{name!r} is defined {count[name]} times; name each apart."


def _substances_exist(file: LabFile) -> Iterator[Finding]:
    for table in ("readings", "givens", "quantities"):
        for key, row in getattr(file, table).items():
            name, _, solution = (row.of or "").partition(".")
            if name and name not in file.species:
                sentence = f"{name!r} is no species of this file."
                yield (table, key, "of"), sentence + nearest(name, file.species)
            elif solution and file.species[name].solution is None:
                sentence = f"{name!r} has no solution; add one, or write of = {name!r}."
                yield (table, key, "of"), sentence


def _relations_know_their_names(file: LabFile) -> Iterator[Finding]:
    known = {name for table in _TABLES for name in getattr(file, table)}
    known |= constant_names(file.species)
    for table, key, relation in _relations(file):
        for name in names(relation):
            if name not in known:
                sentence = f"the relation uses {name!r}, which is not defined."
                yield (table, key, "is"), sentence + nearest(name, known)


def _ratios_hold(file: LabFile) -> Iterator[Finding]:
    equations = readable_equations(file)
    for table, key, relation in _relations(file):
        for of, to, *named in ratios_in(relation):
            shown = f"ratio({', '.join((of, to, *named))})"
            strangers = [name for name in (of, to) if name not in file.species]
            for name in strangers:
                hint = nearest(name, file.species)
                sentence = f"{shown}: {name!r} is no species of this file.{hint}"
                yield (table, key, "is"), sentence
            if not strangers and (reason := why_no_ratio(equations, (of, to), *named)):
                yield (table, key, "is"), f"{shown}: {reason}{_hint(equations, of, to)}"


def _hint(equations: Mapping[str, Equation], of: str, to: str) -> str:
    """Return how a ratio says which of several equations is meant."""
    holding = {
        name or OWN_REACTION
        for name, each in equations.items()
        if {of, to} <= set(each.species)
    }
    ways = [f"ratio({of}, {to}, {name})" for name in sorted(holding)]
    return f" Say which is meant: {' or '.join(ways)}." if len(ways) > 1 else ""


def _plausible_ranges_fit(file: LabFile) -> Iterator[Finding]:
    for key, row in file.quantities.items():
        span = row.plausible
        if span is not None and span.unit.dimension != row.unit.dimension:
            sentence = (
                f"the range is in {span.unit.symbol}, but {key!r} is in "
                f"{row.unit.symbol}."
            )
            yield ("quantities", key, "plausible"), sentence


RULES: tuple[Rule, ...] = (
    formulas_read,
    equations_balance,
    constants_measure,
    readings_can_be_shown,
    own_readings_can_be_typed,
    molar_masses_have_pieces,
    _names_are_single,
    _substances_exist,
    _relations_know_their_names,
    _ratios_hold,
    _plausible_ranges_fit,
    steps_are_single,
    steps_ask_what_exists,
    steps_can_be_answered,
    chains_can_be_built,
    molar_masses_are_asked,
    tolerances_fit,
    ties_fit,
    orders_can_be_kept,
    mechanisms_can_be_laid,
    ranges_have_ends,
    reagent_tables_can_be_filled,
    gates_can_be_passed,
    statements_are_word_for_word,
    names_tell_nothing,
    answers_stand_apart,
    sources_name_something,
    variants_replace_what_is_there,
)
