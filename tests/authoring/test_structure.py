"""SMILES against formulas, atom for atom; RDKit is the reference."""

from __future__ import annotations

import sys

import pytest

from tests.support.lab import read_tables
from workbook.authoring import structure
from workbook.authoring.structure import has_structures, read_smiles, structures_agree
from workbook.errors import MatterError

NAME = 'name = "carbon dioxide"\n'


def sentences(formula: str, smiles: str) -> list[str]:
    """Return what is said of a species."""
    species = f'{NAME}smiles = "{smiles}"\n'
    file = read_tables((NAME, species), ('formula = "CO2"', f'formula = "{formula}"'))
    return [sentence for _, sentence in structures_agree(file)]


# Structures as any textbook draws them.
@pytest.mark.parametrize(
    ("formula", "smiles"),
    [
        ("CO2", "O=C=O"),
        ("C9H8O4", "CC(=O)Oc1ccccc1C(=O)O"),
        ("NaOH", "[Na+].[OH-]"),
        ("SO4^2-", "[O-]S(=O)(=O)[O-]"),
        ("C6H8O7·H2O", "OC(=O)CC(O)(CC(=O)O)C(=O)O.O"),
        ("C16H30N2O2", "*C(=O)CCCCCCCCC(=O)NCCCCCCN*"),
    ],
)
def test_a_smiles_that_fits_is_no_mistake(formula: str, smiles: str) -> None:
    assert sentences(formula, smiles) == []


@pytest.mark.parametrize(
    ("formula", "smiles", "said"),
    [
        ("C2H6O", "CCCO", "has 3 C 8 H 1 O, but the formula 'C2H6O' has 2 C 6 H 1 O."),
        ("SO4^2-", "OS(=O)(=O)O", "has 4 O 1 S and the charge -2."),
        ("CO2", "O=C=", "'O=C=' is no SMILES that RDKit can read"),
        ("CO2", "O=C(", "'O=C(' is no SMILES that RDKit can read"),
        ("H2O", "[2H]O[2H]", "look for an isotope in either."),
    ],
)
def test_a_smiles_that_does_not_fit_is_found(
    formula: str, smiles: str, said: str
) -> None:
    (sentence,) = sentences(formula, smiles)
    assert said in sentence


def test_a_finding_points_to_the_smiles() -> None:
    file = read_tables((NAME, f'{NAME}smiles = "CC"\n'))
    ((place, _),) = structures_agree(file)
    assert place == ("species", "gas", "smiles")


def test_an_empty_smiles_is_none() -> None:
    with pytest.raises(MatterError, match="is no SMILES"):
        read_smiles(" ")


def test_a_lab_without_smiles_loads_no_rdkit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(structure, "import_module", sys.exit)
    assert list(structures_agree(read_tables())) == []


def test_where_rdkit_is_not_installed_that_is_known(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert has_structures()
    monkeypatch.setattr(structure, "find_spec", lambda _: None)
    assert not has_structures()
