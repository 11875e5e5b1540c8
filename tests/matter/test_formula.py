"""Formulas: counts, molar mass, and how they are shown and said."""

from __future__ import annotations

import pickle
from contextlib import suppress
from decimal import Decimal
from types import MappingProxyType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.errors import FormulaError, MatterError
from workbook.matter.elements import ELEMENTS, load_weights
from workbook.matter.formula import (
    LENGTH_LIMIT,
    molar_mass,
    read_formula,
    spoken,
    to_latex,
)

WEIGHTS = load_weights("2021 abridged")

#: What formulas are written with, so that random text comes near to one.
WRITTEN = st.text(
    alphabet="HONaClCuSFe0123456789()[]·.*^+-−²⁻₂ aqIV", max_size=LENGTH_LIMIT + 20
)


@pytest.mark.parametrize("dot", ["·", "•", ".", "*", "∙", "⋅", " · ", " . "])
def test_vitriol_weighs_the_same_with_every_dot(dot: str) -> None:
    # CIAAW 2021: 63.546 + 32.06 + 9 x 15.999 + 10 x 1.0080. A reader that takes O4.5
    # for 4.5 oxygens gets 185.6165.
    vitriol = read_formula(f"CuSO4{dot}5H2O")
    assert molar_mass(vitriol, WEIGHTS) == Decimal("249.677")


def test_subscripts_count_as_plain_digits_do() -> None:
    assert read_formula("Ca₃(PO₄)₂") == read_formula("Ca3(PO4)2")


def test_a_formula_keeps_its_text_without_the_space_around_it() -> None:
    assert read_formula(" NaCl\n").text == "NaCl"


def test_a_formula_can_be_a_key_and_be_stored() -> None:
    formula = read_formula("[Cu(NH3)4]2+")
    assert pickle.loads(pickle.dumps(formula)) == formula  # noqa: S301 - our own bytes
    assert {formula: 1}[read_formula("[Cu(NH₃)₄]²⁺")] == 1


def test_the_atoms_of_a_formula_can_not_be_changed() -> None:
    assert isinstance(read_formula("NaCl").atoms, MappingProxyType)


def test_a_charge_does_not_weigh() -> None:
    ion, salt = read_formula("Na+"), read_formula("Na")
    assert molar_mass(ion, WEIGHTS) == molar_mass(salt, WEIGHTS)
    assert ion.charge == 1


def test_a_refusal_shows_the_whole_formula() -> None:
    with pytest.raises(FormulaError) as caught:
        read_formula("Xx4^2-")
    assert caught.value.text == "Xx4^2-"


def test_an_empty_formula_is_refused() -> None:
    with pytest.raises(FormulaError, match="it is empty"):
        read_formula("  ")


def test_a_long_text_is_refused_unread_and_not_repeated() -> None:
    with pytest.raises(FormulaError) as caught:
        read_formula("H" * 1_000_000)
    assert len(str(caught.value)) < 200


def test_counts_that_run_away_are_refused() -> None:
    with pytest.raises(FormulaError, match="more than 1000000 atoms"):
        read_formula("((H9999)9999)9999")


def test_a_molar_mass_without_a_standard_weight_is_refused() -> None:
    with pytest.raises(MatterError, match="technetium"):
        molar_mass(read_formula("TcO4-"), WEIGHTS)


@pytest.mark.parametrize(
    ("text", "latex"),
    [
        ("C3H8O3", r"\mathrm{C_{3}H_{8}O_{3}}"),
        ("CuSO4.5H2O", r"\mathrm{CuSO_{4}\cdot 5\,H_{2}O}"),
        ("LiOH·H2O", r"\mathrm{LiOH\cdot H_{2}O}"),
        ("Ca(OH)2", r"\mathrm{Ca(OH)_{2}}"),
        ("SO4 2-", r"\mathrm{SO_{4}^{2-}}"),
        ("Na+", r"\mathrm{Na^{+}}"),
        ("[Fe(CN)6]4-", r"\mathrm{[Fe(CN)_{6}]^{4-}}"),
        ("C12H22O11", r"\mathrm{C_{12}H_{22}O_{11}}"),
    ],
)
def test_a_formula_is_typeset_upright(text: str, latex: str) -> None:
    assert to_latex(read_formula(text)) == latex


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("C3H8O3", "C 3 H 8 O 3"),
        ("CuSO4·5H2O", "Cu S O 4 dot 5 H 2 O"),
        ("Ca(OH)2", "Ca open bracket O H close bracket 2"),
        ("Cl-", "Cl charge minus"),
        ("Fe^3+", "Fe charge 3 plus"),
    ],
)
def test_a_formula_is_said_symbol_by_symbol(text: str, words: str) -> None:
    assert spoken(read_formula(text)) == words


@given(WRITTEN | st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    with suppress(FormulaError):
        formula = read_formula(text)
        assert all(count > 0 for count in formula.atoms.values())
        assert spoken(formula)
        assert to_latex(formula)


@given(
    st.lists(
        st.tuples(st.sampled_from(sorted(ELEMENTS)), st.integers(2, 99)),
        min_size=1,
        max_size=8,
    ),
    st.integers(-9, 9),
)
def test_what_is_written_plainly_is_counted_and_shown(
    pairs: list[tuple[str, int]], charge: int
) -> None:
    plain = "".join(f"{symbol}{count}" for symbol, count in pairs)
    formula = read_formula(plain + (f"^{abs(charge)}{charge:+}"[:-1] if charge else ""))
    totals = {s: sum(n for t, n in pairs if t == s) for s, _ in pairs}
    assert formula.atoms == totals
    assert spoken(formula).startswith(" ".join(f"{s} {n}" for s, n in pairs))
