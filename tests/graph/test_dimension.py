"""The dimension of a relation, beside SymPy's own dimensional analysis."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sympy.physics import units
from sympy.physics.units.systems.si import dimsys_SI

from tests.support.lab import read_tables
from workbook.errors import DimensionError
from workbook.graph.dimension import explain_dimension, relations_measure, unit_of
from workbook.measure.units import ONE, PERCENT, read_unit
from workbook.relation.reader import read_relation
from workbook.relation.tree import Algebra, evaluate

if TYPE_CHECKING:
    from collections.abc import Mapping

    import sympy

    from workbook.graph.quantity import Graph
    from workbook.relation.tree import Node

UNITS = {
    "volume": read_unit("mL"),
    "density": read_unit("g/cm3"),
    "mass": read_unit("kg"),
    "amount": read_unit("mmol"),
    "share": ONE,
    "percent": PERCENT,
}

# The units of the olive-oil lab, in SymPy's.
SYMPY_UNITS = {
    "g": units.gram,
    "mL": units.milli * units.liter,
    "mol": units.mole,
    "g/mL": units.gram / (units.milli * units.liter),
    "g/mol": units.gram / units.mole,
    # A percentage stands in a relation as a plain number.
    "%": units.dimensions.Dimension(1),
    "1": units.dimensions.Dimension(1),
}


def sympy_dimension(symbol: str) -> sympy.Expr:
    unit = SYMPY_UNITS[symbol]
    return units.Dimension(units.systems.SI.get_dimensional_expr(unit))


def by_sympy(relation: Node, names: Mapping[str, str]) -> dict[object, int]:
    """Return the dimension of a product, quotient or sum, worked out by SymPy."""
    one = units.Dimension(1)
    algebra: Algebra[sympy.Expr] = Algebra(
        number=lambda _: one,
        name=lambda name: sympy_dimension(names[name]),
        call=lambda _, __: one,
    )
    found: dict[object, int] = dimsys_SI.get_dimensional_dependencies(
        evaluate(relation, algebra)
    )
    return found


def test_sympy_finds_the_same_dimensions_in_the_olive_oil_lab(graph: Graph) -> None:
    names = {name: q.unit.symbol for name, q in graph.quantities.items()}
    for name, relation in graph.lab.key.relations.items():
        wanted = dimsys_SI.get_dimensional_dependencies(sympy_dimension(names[name]))
        assert by_sympy(relation, names) == wanted, name


def test_sympy_finds_another_dimension_where_we_refuse(graph: Graph) -> None:
    # An amount is a mass divided by a molar mass, not times it.
    relation = read_relation("oil_mass * oil.molar_mass")
    names = {name: q.unit.symbol for name, q in graph.quantities.items()}
    wanted = dimsys_SI.get_dimensional_dependencies(sympy_dimension("mol"))
    assert by_sympy(relation, names) != wanted
    all_units = {name: q.unit for name, q in graph.quantities.items()}
    assert explain_dimension("oil_amount", relation, all_units)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("volume * density", "g"),
        ("mass / density", "mL"),
        ("mass + volume * density", "g"),
        ("-mass / amount", "g/mol"),
        ("volume^2 / volume", "cm3"),
        ("min(mass, volume * density)", "g"),
        ("amount * ratio(a, b)", "mol"),
    ],
)
def test_a_relation_has_the_dimension_of_its_unit(text: str, unit: str) -> None:
    found = unit_of(read_relation(text), UNITS)
    assert found.dimension == read_unit(unit).dimension


@pytest.mark.parametrize(
    "text",
    [
        "mass + volume",
        "mass - 1",
        "max(mass, amount)",
        "concordant(mass, volume, volume)",
        "concordant(0.1, volume, volume)",
        "log10(mass)",
        "exp10(mass)",
        "sqrt(volume)",
        "sqrt(mass^3)",
        "sqrt(mass^2 * volume)",
        "share + mass / volume",
    ],
)
def test_unlike_things_are_not_added_compared_or_taken_functions_of(text: str) -> None:
    with pytest.raises(DimensionError):
        unit_of(read_relation(text), UNITS)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("sqrt(mass^2 + mass^2)", "g"),
        ("sqrt(volume * volume)", "mL"),
        ("sqrt((mass / amount)^2)", "g/mol"),
        ("sqrt(mass^4) / mass", "g"),
    ],
)
def test_a_root_is_taken_of_a_square(text: str, unit: str) -> None:
    assert unit_of(read_relation(text), UNITS).dimension == read_unit(unit).dimension


@pytest.mark.parametrize(
    "text", ["log10(share)", "exp10(share)", "sqrt(mass / mass)", "share + 1"]
)
def test_plain_numbers_are_added_and_taken_functions_of(text: str) -> None:
    assert unit_of(read_relation(text), UNITS) == ONE


@pytest.mark.parametrize("text", ["100 * share", "percent", "percent + 2 * percent"])
def test_a_percentage_is_given_by_a_plain_number(text: str) -> None:
    units_here = UNITS | {"whole": PERCENT}
    assert explain_dimension("whole", read_relation(text), units_here) == ""


def test_a_percentage_can_be_used_as_a_plain_number() -> None:
    relation = read_relation("mass * percent / 100")
    assert explain_dimension("mass", relation, UNITS) == ""


def test_a_wrong_dimension_names_both_units() -> None:
    assert explain_dimension("amount", read_relation("mass / volume"), UNITS) == (
        "the unit of 'amount' is 'mmol', but its relation gives 'kg/mL'. Change the "
        "one or the other."
    )


def test_adding_unlike_things_names_both_in_words() -> None:
    sentence = explain_dimension("mass", read_relation("mass + volume"), UNITS)
    assert sentence.endswith("mL measures volume; mass is wanted here, such as kg.")


def test_dimensions_are_told_beside_other_mistakes() -> None:
    # The step asks for nothing known; the relation is looked at all the same.
    file = read_tables(
        ('of = "salt_yield"\nasks', 'of = "salt_yeld"\nasks'),
        ('"chalk_mass / chalk.molar_mass"', '"chalk_mass * chalk.molar_mass"'),
    )
    ((place, sentence),) = relations_measure(file)
    assert place == ("quantities", "chalk_amount", "is")
    assert "its relation gives" in sentence


def test_a_relation_of_unknown_names_has_no_dimension_to_tell() -> None:
    file = read_tables(('"chalk_mass / chalk.molar_mass"', '"chalk_mas * dish"'))
    assert list(relations_measure(file)) == []


def test_a_relation_with_an_unknown_instrument_is_passed_over() -> None:
    file = read_tables(
        ('instrument = "balance, 0.01 g"', 'instrument = "scales"'),
        ('"chalk_mass / chalk.molar_mass"', '"chalk_mass"'),
    )
    assert list(relations_measure(file)) == []
