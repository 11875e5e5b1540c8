"""The constants that a species brings: ``oil.density`` and the like."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from workbook.errors import DimensionError
from workbook.measure.units import PERCENT, read_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, Species
    from workbook.measure.units import Unit
    from workbook.measure.written import Written

#: What a species with a formula has, besides what is written.
MOLAR_MASS = "molar_mass"

#: More than the whole is no share [%].
_WHOLE = 100


class _Kind(NamedTuple):
    """Where a constant stands in a species' table, and a unit of what it measures."""

    table: str
    key: str
    unit: str


#: By the name behind the dot.
_KINDS: Mapping[str, _Kind] = {
    "density": _Kind("density", "value", "g/mL"),
    "molar_volume": _Kind("molar_volume", "value", "L/mol"),
    "molarity": _Kind("solution", "molarity", "mol/L"),
    "mass_fraction": _Kind("solution", "mass_fraction", "%"),
    "mass_per_volume": _Kind("solution", "mass_per_volume", "g/L"),
    "solution_density": _Kind("solution", "density", "g/mL"),
}


def written_constants(species: Species) -> dict[str, Written]:
    """
    Return the constants that are written in a species' table.

    Parameters
    ----------
    species : Species
        A ``[species]`` table.

    Returns
    -------
    dict of str to Written
        By the name behind the dot: ``"density"``, ``"mass_fraction"``.
    """
    found: dict[str, Written] = {}
    for suffix, kind in _KINDS.items():
        written = getattr(getattr(species, kind.table), kind.key, None)
        if written is not None:
            found[suffix] = written
    return found


def constant_names(species: Mapping[str, Species]) -> frozenset[str]:
    """
    Return the names of all constants, as relations use them.

    Parameters
    ----------
    species : mapping of str to Species
        By name.

    Returns
    -------
    frozenset of str
        Dotted names.
    """
    found: set[str] = set()
    for key, each in species.items():
        found |= {f"{key}.{suffix}" for suffix in written_constants(each)}
        found |= {f"{key}.{MOLAR_MASS}"} if each.formula else set()
    return frozenset(found)


def constants_measure(file: LabFile) -> Iterator[Finding]:
    """
    Find the constants that measure something else than they should, or are no size.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each constant.
    """
    for key, each in file.species.items():
        for suffix, written in written_constants(each).items():
            kind = _KINDS[suffix]
            if sentence := _wrong(written, read_unit(kind.unit)):
                yield ("species", key, kind.table, kind.key), sentence


def explain_constant(name: str, written: Written) -> str:
    """
    Return what is wrong with the value of a constant, or the empty text.

    Parameters
    ----------
    name : str
        The name behind the dot: ``"density"``.
    written : Written
        The value with its unit.

    Returns
    -------
    str
        A sentence.
    """
    return _wrong(written, read_unit(_KINDS[name].unit))


def put_constant(species: Species, name: str, written: Written, source: str) -> Species:
    """
    Return a species with another value of one of its constants.

    Parameters
    ----------
    species : Species
        One that has the constant.
    name : str
        The name behind the dot: ``"density"``.
    written : Written
        The value with its unit.
    source : str
        Where it was read or measured.

    Returns
    -------
    Species
        Otherwise the same.
    """
    kind = _KINDS[name]
    table = getattr(species, kind.table)
    filled = table.model_copy(update={kind.key: written, "source": source})
    return species.model_copy(update={kind.table: filled})


def _wrong(written: Written, wanted: Unit) -> str:
    try:
        value = written.in_unit(wanted)
    except DimensionError as error:
        return str(error)
    if value <= 0:
        return f"{written.text!r} is not above zero."
    if wanted == PERCENT and value > _WHOLE:
        return f"{written.text!r} is more than the whole."
    return ""
