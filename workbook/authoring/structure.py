"""
What a SMILES says of a species: held against its formula, by way of RDKit.

RDKit is an extra of the author's side, ``pip install 'lab-workbook[structures]'``. No
other module loads it, and this one only when a lab has a SMILES.
"""

from __future__ import annotations

from collections import Counter
from importlib import import_module
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

from workbook.errors import MatterError
from workbook.matter.elements import TABLES, load_weights
from workbook.matter.formula import molar_mass, read_formula

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile, Species
    from workbook.matter.elements import AtomicWeights
    from workbook.matter.formula import Formula

#: Where RDKit comes from.
BRING = "pip install 'lab-workbook[structures]' brings it."

#: What is said where RDKit is not installed.
WITHOUT = (
    f"The SMILES were not held against the formulas: RDKit is not installed. {BRING}"
)

#: How far two tables of atomic weights may lie apart, as a share [-]: conventional
#: values of CIAAW 2021 and those that RDKit holds differ by less.
_TABLES_DIFFER = 5e-4


def has_structures() -> bool:
    """
    Tell whether SMILES can be read here.

    Returns
    -------
    bool
        False where RDKit is not installed.
    """
    return find_spec("rdkit") is not None


def read_smiles(text: str) -> Any:  # noqa: ANN401  RDKit ships no types
    """
    Return the structure that a SMILES stands for.

    Parameters
    ----------
    text : str
        ``"CC(=O)O"``.

    Returns
    -------
    rdkit.Chem.Mol
        With its implicit hydrogens.

    Raises
    ------
    MatterError
        If RDKit can't read it.
    """
    chem, log = import_module("rdkit.Chem"), import_module("rdkit.RDLogger")
    # It would write its own lines beside ours.
    log.DisableLog("rdApp.*")
    structure = chem.MolFromSmiles(text)
    if structure is None or not structure.GetNumAtoms():
        msg = (
            f"{text!r} is no SMILES that RDKit can read; look at brackets, rings and "
            "charges."
        )
        raise MatterError(msg)
    return structure


def structures_agree(file: LabFile) -> Iterator[Finding]:
    """
    Find SMILES that can't be read, or stand for another substance than the formula.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each species.
    """
    for key, species in file.species.items():
        if species.smiles is not None and (sentence := _wrong(species, species.smiles)):
            yield ("species", key, "smiles"), sentence


def _wrong(species: Species, smiles: str) -> str:
    try:
        structure = read_smiles(smiles)
    except MatterError as error:
        return str(error)
    if species.formula is None:
        return ""
    formula = read_formula(species.formula)
    atoms, charge = _count(structure)
    if atoms != _atoms_of(formula) or charge != formula.charge:
        return (
            f"this SMILES has {_say(atoms, charge)}, but the formula "
            f"{species.formula!r} has {_say(_atoms_of(formula), formula.charge)}. "
            "Change the one or the other."
        )
    return _weighs_wrong(structure, formula)


def _weighs_wrong(structure: Any, formula: Formula) -> str:  # noqa: ANN401  see above
    theirs, ours = _weigh(structure), float(molar_mass(formula, _weights()))
    if abs(theirs - ours) <= _TABLES_DIFFER * ours:
        return ""
    return (
        f"the molar mass is {ours:.3f} g/mol by the formula and {theirs:.3f} g/mol by "
        "the SMILES; look for an isotope in either."
    )


def _weigh(structure: Any) -> float:  # noqa: ANN401  see above
    """Return the molar mass by RDKit's own table; its descriptors load slowly."""
    hydrogen = import_module("rdkit.Chem").GetPeriodicTable().GetAtomicWeight(1)
    return float(
        sum(
            atom.GetMass() + atom.GetTotalNumHs() * hydrogen
            for atom in structure.GetAtoms()
        )
    )


def _weights() -> AtomicWeights:
    return load_weights(TABLES[0])


def _count(
    structure: Any,  # noqa: ANN401  see above
) -> tuple[dict[str, int], int]:
    """Return the atoms, hydrogens that are not written too, and the charge."""
    atoms: Counter[str] = Counter()
    for atom in structure.GetAtoms():
        # A star is the end of a chain of repeat units, and no atom.
        if atom.GetAtomicNum():
            atoms[atom.GetSymbol()] += 1
        atoms["H"] += atom.GetTotalNumHs()
    charge = sum(atom.GetFormalCharge() for atom in structure.GetAtoms())
    return {symbol: count for symbol, count in sorted(atoms.items()) if count}, charge


def _atoms_of(formula: Formula) -> dict[str, int]:
    return dict(sorted(formula.atoms.items()))


def _say(atoms: Mapping[str, int], charge: int) -> str:
    shown = " ".join(f"{count} {symbol}" for symbol, count in atoms.items())
    return f"{shown} and the charge {charge:+d}" if charge else shown
