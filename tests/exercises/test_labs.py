"""Every lab that ships: its structures, its molar masses, and a small class at it."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

import pytest
from rdkit import Chem

from tests.support.exercise import LABS, find_lab
from tests.support.lab import WEIGHTS
from workbook.matter.formula import molar_mass, read_formula
from workbook.rehearsal.lesson import rehearse

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.rehearsal.tally import Tally

#: Relative; the same as for the published structures of `tests/matter`. RDKit carries
#: atomic weights of another year [-].
SECOND_OPINION = Decimal("1.5e-4")

#: Attempts of the class: each step is answered by two students at least [-].
ATTEMPTS = 250

each_lab = pytest.mark.parametrize("name", LABS)


def atoms_in(smiles: str) -> list[Chem.Atom]:
    """Return the atoms of a structure; the open ends of a repeat unit are none."""
    molecule = Chem.AddHs(Chem.MolFromSmiles(smiles))
    return [atom for atom in molecule.GetAtoms() if atom.GetAtomicNum()]


def structures(name: str) -> Iterator[tuple[str, str]]:
    """Give formula and SMILES of the species of a lab that have both."""
    for species in find_lab(name).public.species.values():
        if species.formula and species.smiles:
            yield species.formula, species.smiles


@cache
def try_out(name: str) -> Tally:
    """Return the figures of a small class."""
    *_, tally = rehearse(find_lab(name), ATTEMPTS, seed=2)
    return tally


@each_lab
def test_every_substance_of_a_reaction_has_a_structure(name: str) -> None:
    public = find_lab(name).public
    reacting = {key for each in public.equations.values() for key in each.species}
    bare = {key for key in reacting if public.species[key].smiles is None}
    assert bare == set()


@each_lab
def test_rdkit_counts_the_atoms_of_each_formula_in_its_structure(name: str) -> None:
    for formula, smiles in structures(name):
        counted = Counter(atom.GetSymbol() for atom in atoms_in(smiles))
        assert read_formula(formula).atoms == counted, formula


@each_lab
def test_rdkit_weighs_each_substance_the_same(name: str) -> None:
    for formula, smiles in structures(name):
        weighed = Decimal(sum(atom.GetMass() for atom in atoms_in(smiles)))
        own = molar_mass(read_formula(formula), WEIGHTS)
        assert abs(own - weighed) <= SECOND_OPINION * weighed, formula


@each_lab
def test_no_honest_student_of_a_small_class_is_judged_wrong(name: str) -> None:
    tally = try_out(name)
    assert tally.honest_wrong.of > 0
    assert tally.honest_wrong.hits == 0, tally.examples


@each_lab
def test_what_comes_after_a_slip_earns_its_step(name: str) -> None:
    tally = try_out(name)
    assert tally.followed.of > 0
    assert tally.followed.hits == tally.followed.of


@each_lab
def test_no_slip_lies_in_the_band_of_a_right_answer(name: str) -> None:
    assert try_out(name).variants_inside.hits == 0
