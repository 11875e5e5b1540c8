"""
What must be true across the tables of a lab file, one function a rule.

A rule yields findings and never raises: an author sees all that is wrong at
once. A finding names the place by its path of keys; the reader adds file and line.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

from workbook.errors import MatterError, nearest
from workbook.labfile.instrument import find_instrument
from workbook.labfile.reaction import Finding, equations_balance, formulas_read
from workbook.labfile.schema import (
    AlgebraTable,
    ChainTable,
    ChoiceTable,
    LabFile,
    LimitingTable,
    NumberTable,
    QuantityTable,
    Reading,
    ReadingTable,
    StepTable,
)
from workbook.relation.tree import Call, Name, Node, Operation, names

Rule: TypeAlias = Callable[[LabFile], Iterator[Finding]]

_TABLES = ("readings", "givens", "hidden", "quantities")


def step_id(step: StepTable) -> str:
    """
    Return the name by which a step is known.

    Parameters
    ----------
    step : StepTable
        A step of either part.

    Returns
    -------
    str
        The quantity that is asked, or the name of a choice.

    Examples
    --------
    >>> step_id(NumberTable(kind="number", of="oil_mass", asks="What mass?"))
    'oil_mass'
    """
    if isinstance(step, ChoiceTable | LimitingTable):
        return step.name
    return f"{step.of}.molar_mass" if isinstance(step, AlgebraTable) else step.of


def constants_of(file: LabFile) -> set[str]:
    """
    Return the names that the species bring: ``oil.density`` and the like.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    set of str
        Dotted names, as relations use them.
    """
    found: set[str] = set()
    for key, species in file.species.items():
        found |= {f"{key}.molar_mass"} if species.formula else set()
        found |= {f"{key}.density"} if species.density else set()
        if bottle := species.solution:
            strengths = ("molarity", "mass_fraction", "mass_per_volume")
            found |= {f"{key}.{s}" for s in strengths if getattr(bottle, s) is not None}
            found |= {f"{key}.solution_density"} if bottle.density else set()
    return found


def is_product(relation: Node) -> bool:
    """
    Tell whether a relation is a product of names, ratios and their inverses.

    Parameters
    ----------
    relation : Node
        The right-hand side of a quantity.

    Returns
    -------
    bool
        True when a factor chain can express it.
    """
    match relation:
        case Name() | Call(name="ratio"):
            return True
        case Operation(sign="*" | "/", left=left, right=right):
            return is_product(left) and is_product(right)
        case _:
            return False


def _rows(file: LabFile) -> Iterator[tuple[str, str, Reading | QuantityTable]]:
    for name, reading in file.readings.items():
        yield "readings", name, reading
    for name, quantity in file.quantities.items():
        yield "quantities", name, quantity


def _instruments_exist(file: LabFile) -> Iterator[Finding]:
    for key, reading in file.readings.items():
        try:
            instrument = find_instrument(reading.instrument)
        except MatterError as error:
            yield ("readings", key, "instrument"), str(error)
            continue
        unit = reading.draw.unit if reading.draw else instrument.unit
        if unit.dimension != instrument.unit.dimension:
            sentence = (
                f"the range is in {unit.symbol}, but {instrument.name!r} shows "
                f"{instrument.unit.symbol}."
            )
            yield ("readings", key, "draw"), sentence


def _names_are_single(file: LabFile) -> Iterator[Finding]:
    tables = (*_TABLES, "species")
    count = Counter(name for table in tables for name in getattr(file, table))
    for table in tables:
        for name in getattr(file, table):
            if count[name] > 1:
                sentence = f"{name!r} is defined {count[name]} times; name each apart."
                yield (table, name), sentence


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
    known |= constants_of(file)
    for table, key, row in _rows(file):
        for name in names(row.relation) if row.relation is not None else ():
            if name not in known:
                sentence = f"the relation uses {name!r}, which is not defined."
                yield (table, key, "is"), sentence + nearest(name, known)


def _steps_are_single(file: LabFile) -> Iterator[Finding]:
    count = Counter(step_id(step) for step in (*file.prelab, *file.postlab))
    for part, index, step in _steps(file):
        times = count[step_id(step)]
        if times > 1:
            sentence = f"{step_id(step)!r} is asked {times} times; ask it once."
            yield (part, index), sentence


def _steps(file: LabFile) -> Iterator[tuple[str, int, StepTable]]:
    for index, step in enumerate(file.prelab):
        yield "prelab", index, step
    for index, step in enumerate(file.postlab):
        yield "postlab", index, step


def _steps_ask_what_exists(file: LabFile) -> Iterator[Finding]:
    for part, index, step in _steps(file):
        for sentence in _one_step(file, step):
            yield (part, index, "of"), sentence


def _one_step(file: LabFile, step: StepTable) -> Iterator[str]:
    match step:
        case ReadingTable(of=name):
            yield from _must_be(name, file.readings, "reading")
        case NumberTable(of=name):
            yield from _must_be(name, file.quantities, "quantity")
        case ChainTable(of=name):
            yield from _must_be(name, file.quantities, "quantity")
            yield from _must_be_chain(file, name)
        case AlgebraTable(of=name):
            yield from _must_be(name, file.molar_mass, "[molar_mass] table")
        case LimitingTable(of=amounts):
            for species, amount in amounts.items():
                yield from _must_be(species, file.species, "species")
                yield from _must_be(amount, file.quantities, "quantity")
        case _:
            return


def _must_be(name: str, known: Mapping[str, object], kind: str) -> Iterator[str]:
    if name not in known:
        yield f"{name!r} is no {kind} of this file.{nearest(name, known)}"


def _must_be_chain(file: LabFile, name: str) -> Iterator[str]:
    if name not in file.quantities:
        return
    relation = file.quantities[name].relation
    if not is_product(relation):
        yield (
            f"{name!r} is asked as a chain, but its relation is not a product of "
            'factors. Ask it with kind = "number".'
        )
        return
    starts = [each for each in names(relation) if each not in constants_of(file)]
    if len(starts) != 1:
        yield (
            f"{name!r} is asked as a chain, which starts from one value; its relation "
            f'has {len(starts)}. Ask it with kind = "number".'
        )


RULES: tuple[Rule, ...] = (
    formulas_read,
    equations_balance,
    _instruments_exist,
    _names_are_single,
    _substances_exist,
    _relations_know_their_names,
    _steps_are_single,
    _steps_ask_what_exists,
)
