"""Rules on steps: each asks once for what exists, and in a way that can be answered."""

from __future__ import annotations

from collections import Counter
from contextlib import suppress
from typing import TYPE_CHECKING

from workbook.errors import MatterError, nearest
from workbook.labfile.instrument import find_instrument
from workbook.labfile.kind import ReagentsTable
from workbook.labfile.reaction import readable_equations, why_no_ratio
from workbook.labfile.schema import (
    AlgebraTable,
    ChainTable,
    LimitingTable,
    NumberTable,
    ReadingTable,
    StepTable,
)
from workbook.labfile.table import Named
from workbook.measure.units import PERCENT, read_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile
    from workbook.measure.units import Unit
    from workbook.measure.written import Written

#: Two reagents that must lie further apart than this are no near tie [%].
_FAR = 50


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
        The quantity that is asked, or the name of a step that asks for none.

    Examples
    --------
    >>> step_id(NumberTable(kind="number", of="oil_mass", asks="What mass?"))
    'oil_mass'
    """
    if isinstance(step, Named):
        return step.name
    return f"{step.of}.molar_mass" if isinstance(step, AlgebraTable) else step.of


def placed_steps(file: LabFile) -> Iterator[tuple[tuple[str, int], StepTable]]:
    """
    Give every step with its place in the file.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of ((str, int), StepTable)
        Those before the lab first.
    """
    for index, step in enumerate(file.prelab):
        yield ("prelab", index), step
    for index, step in enumerate(file.postlab):
        yield ("postlab", index), step


def steps_are_single(file: LabFile) -> Iterator[Finding]:
    """
    Find steps that ask for the same thing.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each.
    """
    count = Counter(step_id(step) for _, step in placed_steps(file))
    for place, step in placed_steps(file):
        times = count[step_id(step)]
        if times > 1:
            yield place, f"{step_id(step)!r} is asked {times} times; ask it once."


def steps_ask_what_exists(file: LabFile) -> Iterator[Finding]:
    """
    Find steps that ask for what is not in the file.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    for place, step in placed_steps(file):
        for sentence in _absent(file, step):
            yield (*place, "of"), sentence


def _absent(file: LabFile, step: StepTable) -> Iterator[str]:
    match step:
        case ReadingTable(of=name):
            yield from _must_be(name, file.readings, "reading")
        case NumberTable(of=name) | ChainTable(of=name):
            yield from _must_be(name, file.quantities, "quantity")
        case AlgebraTable(of=name):
            yield from _must_be(name, file.molar_mass, "[molar_mass] table")
        case LimitingTable(of=amounts):
            yield from must_limit(file, amounts)
        case _:
            return


def _must_be(name: str, known: Mapping[str, object], kind: str) -> Iterator[str]:
    if name not in known:
        yield f"{name!r} is no {kind} of this file.{nearest(name, known)}"


def must_limit(file: LabFile, amounts: Mapping[str, str]) -> Iterator[str]:
    """
    Find why it can't be asked which reagent limits.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.
    amounts : mapping of str to str
        The quantity that is the amount of each species.

    Returns
    -------
    iterator of str
        Sentences.
    """
    mole = read_unit("mol")
    for species, amount in amounts.items():
        yield from _must_be(species, file.species, "species")
        yield from _must_be(amount, file.quantities, "quantity")
        row = file.quantities.get(amount)
        if row is not None and row.unit.dimension != mole.dimension:
            yield f"{amount!r} is in {row.unit.symbol}; an amount is wanted, in mol."
    if set(amounts) <= set(file.species):
        yield from _must_react(file, tuple(amounts))


def _must_react(file: LabFile, species: tuple[str, ...]) -> Iterator[str]:
    if reason := why_no_ratio(readable_equations(file), species):
        yield reason


def molar_masses_are_asked(file: LabFile) -> Iterator[Finding]:
    """
    Find ``[molar_mass]`` tables that no step asks for.

    Such a molar mass would be printed nowhere.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        One for each.
    """
    asked = {
        step.of for _, step in placed_steps(file) if isinstance(step, AlgebraTable)
    }
    for key in file.molar_mass:
        if key not in asked:
            sentence = (
                f'no step asks for it; add one of kind = "algebra", of = "{key}".'
            )
            yield ("molar_mass", key), sentence


def tolerances_fit(file: LabFile) -> Iterator[Finding]:
    """
    Find steps whose ``widen`` is neither a percentage nor in the step's own unit.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each step.
    """
    for place, step in placed_steps(file):
        if isinstance(step, Named) or step.widen is None:
            continue
        own = _unit_asked(file, step)
        if own is None or step.widen.unit is None:
            continue  # told by another rule
        if step.widen.value <= 0:
            yield (*place, "widen"), f"{step.widen.text!r} does not widen anything."
        elif step.widen.unit.dimension not in {own.dimension, PERCENT.dimension}:
            sentence = (
                f"{step.widen.text!r} measures {step.widen.unit.dimension.words}; a "
                f"percentage or something in {own.symbol} is expected."
            )
            yield (*place, "widen"), sentence


def ties_fit(file: LabFile) -> Iterator[Finding]:
    """
    Find steps whose ``closest`` is no small percentage, or that compare nothing.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each step.
    """
    for place, step in placed_steps(file):
        if not isinstance(step, LimitingTable | ReagentsTable):
            continue
        if step.closest and (sentence := _tie_wrong(step, step.closest)):
            yield (*place, "closest"), sentence


def _tie_wrong(step: LimitingTable | ReagentsTable, closest: Written) -> str:
    if closest.unit != PERCENT:
        return f'{closest.text!r} is no percentage; write it like "1 %".'
    if not 0 < closest.value < _FAR:
        return (
            f"{closest.text!r} is not a small percentage above zero; without closest "
            "two reagents come no nearer than 5 %."
        )
    if isinstance(step, ReagentsTable) and step.limiting is None:
        return "the table does not ask which reagent limits, so nothing is compared."
    return ""


def _unit_asked(
    file: LabFile, step: ReadingTable | NumberTable | ChainTable | AlgebraTable
) -> Unit | None:
    match step:
        case AlgebraTable():
            return read_unit("g/mol")
        case ReadingTable(of=name) if name in file.readings:
            with suppress(MatterError):
                return find_instrument(file.readings[name].instrument).unit
        case NumberTable(of=name) | ChainTable(of=name) if name in file.quantities:
            return file.quantities[name].unit
    return None
