"""A molar mass by algebra from another's."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
import sympy

from tests.support.lab import WEIGHTS, make_graph
from workbook.errors import RelationError
from workbook.graph.algebra import (
    check_pieces,
    molar_mass_relation,
    piece_name,
    piece_system,
)
from workbook.graph.compute import compute
from workbook.graph.expression import to_sympy
from workbook.labfile.schema import MolarMass
from workbook.matter.formula import molar_mass, read_formula

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.graph.quantity import Graph

SOAP = MolarMass.model_validate(
    {
        "from": "oil",
        "pieces": {"oil": "C3H5 + 3 x", "soap": "x + Na"},
        "letters": {"x": "molar mass of the acid part"},
    }
)


def mass_of(formula: str) -> float:
    return float(molar_mass(read_formula(formula), WEIGHTS))


def test_the_relation_is_the_algebra_that_a_chemist_does() -> None:
    oil, glyceryl, sodium = sympy.symbols("oil.molar_mass M(C3H5) M(Na)")
    found = to_sympy(molar_mass_relation("soap", SOAP))
    assert sympy.simplify(found - ((oil - glyceryl) / 3 + sodium)) == 0


def test_the_pieces_are_two_equations() -> None:
    oil, soap, x = sympy.symbols("oil.molar_mass soap.molar_mass x")
    glyceryl, sodium = (sympy.Symbol(piece_name(f)) for f in ("C3H5", "Na"))
    assert piece_system("soap", SOAP) == (
        sympy.Eq(oil, glyceryl + 3 * x),
        sympy.Eq(soap, x + sodium),
    )


def test_a_soap_follows_from_a_printed_triglyceride(graph: Graph) -> None:
    # A triglyceride of linoleic acid is printed as 879.44 g/mol in shops and papers;
    # the way (M - M(C3H5)) / 3 + M(Na) is common practice, no source.
    masses = {"oil.molar_mass": 879.44, "M(C3H5)": mass_of("C3H5")}
    masses["M(Na)"] = mass_of("Na")
    soap = compute(graph, molar_mass_relation("soap", SOAP), masses)
    # Sodium linoleate by its formula; a hundredth in 879.44 is a third of one here.
    assert soap == pytest.approx(mass_of("C18H31NaO2"), abs=0.015)
    assert f"{soap:.1f}" == f"{mass_of('C18H31NaO2'):.1f}" == "302.4"


def test_triolein_gives_sodium_oleate_exactly(graph: Graph) -> None:
    # 885.453 and 304.450 g/mol, sums of the abridged weights of CIAAW 2021.
    masses = {f"M({f})": mass_of(f) for f in ("C3H5", "Na")}
    masses["oil.molar_mass"] = mass_of("C57H104O6")
    soap = compute(graph, molar_mass_relation("soap", SOAP), masses)
    assert soap == pytest.approx(304.450, abs=1e-9)


@pytest.mark.parametrize(
    ("pieces", "reason"),
    [
        ({"oil": "C3H5 + 3 x", "soap": "x + y"}, "do not settle soap"),
        ({"oil": "x + y", "soap": "x + y"}, "do not settle"),
        ({"oil": "C3H5", "soap": "x + Na"}, "do not settle"),
        ({"oil": "C3H5 + 3 x / (2 - 2)", "soap": "x"}, "divided by zero"),
    ],
)
def test_pieces_that_settle_nothing_are_refused(
    pieces: dict[str, str], reason: str
) -> None:
    letters = (
        {"x": "one part", "y": "the other"} if "y" in str(pieces) else {"x": "one"}
    )
    row = MolarMass.model_validate(
        {"from": "oil", "pieces": pieces, "letters": letters}
    )
    with pytest.raises(RelationError, match=reason):
        molar_mass_relation("soap", row)


def test_a_molar_mass_below_zero_is_refused() -> None:
    pieces = {"oil": "3 x", "soap": "-x - Na"}
    row = MolarMass.model_validate(
        {"from": "oil", "pieces": pieces, "letters": {"x": "one"}}
    )
    with pytest.raises(RelationError, match="below zero"):
        molar_mass_relation("soap", row)


def test_pieces_are_held_against_the_formula() -> None:
    masses = {f"M({f})": Decimal(str(mass_of(f))) for f in ("C3H5", "Na")}
    masses["oil.molar_mass"] = Decimal("885.453")
    relation = molar_mass_relation("soap", SOAP)
    check_pieces(relation, masses, Decimal("304.450"))
    # One hydrogen less: 304.450 - 1.008.
    with pytest.raises(RelationError, match=r"304\.450 g/mol.*303\.442 g/mol"):
        check_pieces(relation, masses, Decimal("303.442"))


def test_the_derived_molar_mass_takes_the_place_of_the_formulas(
    tmp_path: Path,
) -> None:
    # CaCl2 by its own formula: 40.078 + 2 x 35.45 = 110.978 g/mol.
    graph = make_graph(tmp_path)
    quantity = graph.quantities["salt.molar_mass"]
    assert quantity.relation is not None
    constants = {
        name: float(q.constant.value)
        for name, q in graph.quantities.items()
        if q.constant is not None
    }
    assert compute(graph, quantity.relation, constants) == pytest.approx(110.978)
