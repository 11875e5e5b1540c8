"""Units convert as the published factors say, and refuse what does not belong."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
import sympy.physics.units as su
from hypothesis import given
from hypothesis import strategies as st

from workbook.errors import AmbiguousError, DimensionError, UnknownUnitError
from workbook.measure.table import ROWS
from workbook.measure.units import (
    ONE,
    PERCENT,
    Unit,
    convert,
    convert_difference,
    read_unit,
)


@pytest.mark.parametrize(
    ("value", "unit", "to", "expected"),
    [
        # SI Brochure, 9th edition (2019): prefixes of table 7, litre of table 8.
        ("13600", "mg", "g", "13.6"),
        ("0.0136", "kg", "g", "13.6"),
        ("25.8", "mmol", "mol", "0.0258"),
        ("1", "L", "dm3", "1"),
        ("1", "m3", "L", "1000"),
        ("1", "mL", "cm3", "1"),
        ("1", "µL", "mm3", "1"),
        ("250", "cL", "L", "2.5"),
        ("1", "g/mL", "kg/m3", "1000"),
        ("1", "M", "mol/m3", "1000"),
        ("0.3044", "kg/mol", "g/mol", "304.4"),
        ("1", "h", "s", "3600"),
        ("25", "°C", "K", "298.15"),
        ("0", "K", "°C", "-273.15"),
        # The same: 1 Pa = 1 N/m2 and 1 J = 1 N m, so 1 Pa m3 = 1 J.
        ("1", "Pa m^3", "J", "1"),
        ("1", "kg m2 s-2", "J", "1"),
        # NIST SP 811 (2008), B.8: atmosphere, bar.
        ("1", "atm", "Pa", "101325"),
        ("1", "bar", "kPa", "100"),
        ("760", "torr", "atm", "1"),
    ],
)
def test_conversions_agree_with_published_definitions(
    value: str, unit: str, to: str, expected: str
) -> None:
    assert convert(Decimal(value), read_unit(unit), read_unit(to)) == Decimal(expected)


def test_a_millimetre_of_mercury_is_the_conventional_one() -> None:
    # NIST SP 811 (2008), B.8: 1 mmHg (conventional) = 133.3224 Pa.
    pascals = convert(Decimal(1), read_unit("mmHg"), read_unit("Pa"))
    assert round(pascals, 4) == Decimal("133.3224")


SECOND_OPINION = {
    "ng": su.gram * su.nano,
    "mg": su.milligram,
    "g": su.gram,
    "kg": su.kilogram,
    "mL": su.milliliter,
    "L": su.liter,
    "nm": su.nanometer,
    "mm": su.millimeter,
    "cm": su.centimeter,
    "dm": su.decimeter,
    "m": su.meter,
    "mmol": su.mole / 1000,
    "mol": su.mole,
    "M": su.mole / su.liter,
    "K": su.kelvin,
    "Pa": su.pascal,
    "kPa": 1000 * su.pascal,
    "bar": su.bar,
    "atm": su.atmosphere,
    "mmHg": su.mmHg,
    "s": su.second,
    "min": su.minute,
    "h": su.hour,
    "J": su.joule,
    "kJ": 1000 * su.joule,
}


@pytest.mark.parametrize("symbol", SECOND_OPINION)
def test_factors_agree_with_sympy(symbol: str) -> None:
    bases = [su.gram, su.centimeter, su.mole, su.second, su.kelvin]
    theirs = su.convert_to(SECOND_OPINION[symbol], bases).as_coeff_Mul()[0]
    ours = read_unit(symbol).factor
    assert float(theirs) == pytest.approx(float(ours), rel=1e-6)


@pytest.mark.parametrize(
    ("unit", "wanted", "sentence"),
    [
        (
            "mg",
            "mol",
            "mg measures mass; amount of substance is wanted here, such as mol.",
        ),
        ("g", "%", "g measures mass; a percentage is wanted here, such as %."),
        ("m", "M", "m measures length; concentration is wanted here, such as M."),
        ("g/mol", "g", "g/mol measures molar mass; mass is wanted here, such as g."),
    ],
)
def test_a_wrong_dimension_is_named_in_words(
    unit: str, wanted: str, sentence: str
) -> None:
    with pytest.raises(DimensionError) as caught:
        convert(Decimal(1), read_unit(unit), read_unit(wanted))
    assert str(caught.value) == sentence


def test_a_fraction_is_never_turned_into_a_percentage() -> None:
    with pytest.raises(DimensionError):
        convert(Decimal("0.789"), ONE, PERCENT)


@pytest.mark.parametrize("spelling", ["ML", "Ml", "MG", "Mg", "Mmol", "MM", "g/ML"])
def test_a_capital_that_changes_the_size_is_asked_about(spelling: str) -> None:
    with pytest.raises(AmbiguousError, match="which is meant"):
        read_unit(spelling)


@pytest.mark.parametrize(
    ("spelling", "meant"),
    [
        ("KG", "kg"),
        ("G", "g"),
        ("Mol", "mol"),
        ("gramms", "grammes"),
        ("KJ", "kJ"),
        ("m\u0131lligram", "milligram"),
    ],
)
def test_an_unknown_unit_is_offered_the_nearest(spelling: str, meant: str) -> None:
    with pytest.raises(UnknownUnitError, match=f"Did you mean '{meant}'"):
        read_unit(spelling)


def test_units_cancel_in_a_product() -> None:
    density, volume = read_unit("g/mL"), read_unit("mL")
    assert (density * volume) == read_unit("g")
    assert (density / density) == ONE


def test_units_of_unequal_size_do_not_cancel() -> None:
    ratio = read_unit("mL") / read_unit("L")
    assert ratio.symbol == "mL/L"
    assert ratio.factor == Fraction(1, 1000)


def test_a_degree_in_a_compound_is_a_difference() -> None:
    # Water's specific heat capacity is the same number per degree and per kelvin.
    per_degree, per_kelvin = read_unit("J/(g °C)"), read_unit("J/(g K)")
    assert convert(Decimal("4.184"), per_degree, per_kelvin) == Decimal("4.184")


def test_a_difference_of_temperatures_has_no_offset() -> None:
    celsius, kelvin = read_unit("°C"), read_unit("K")
    assert convert_difference(Decimal("0.5"), celsius, kelvin) == Decimal("0.5")


def test_moving_the_point_keeps_the_written_digits() -> None:
    assert str(convert(Decimal("13.60"), read_unit("g"), read_unit("kg"))) == "0.01360"


def test_a_unit_is_a_key() -> None:
    assert {read_unit("grams"): 1}[read_unit("g")] == 1


@pytest.mark.parametrize("unit", [ONE, PERCENT, read_unit("g·cm²/(mol·s²)")])
def test_a_printed_unit_is_read_back(unit: Unit) -> None:
    assert read_unit(unit.symbol) == unit


NAMES = st.sampled_from(sorted(ROWS))
POWERS = st.integers(-3, 3).filter(bool)


@given(st.dictionaries(NAMES, POWERS, min_size=1, max_size=4))
def test_any_product_of_units_is_read_back(powers: dict[str, int]) -> None:
    unit = ONE
    for name, power in powers.items():
        unit *= read_unit(name) ** power
    again = read_unit(unit.symbol)
    assert (again.dimension, again.factor) == (unit.dimension, unit.factor)


@given(st.decimals(-(10**6), 10**6, places=6), NAMES, NAMES)
def test_conversion_there_and_back_changes_nothing(
    value: Decimal, name: str, other: str
) -> None:
    unit, to = read_unit(name), read_unit(other)
    if unit.dimension == to.dimension:
        again = convert(convert(value, unit, to), to, unit)
        assert abs(again - value) < Decimal("1e-40")


@pytest.mark.parametrize(
    ("unit", "printed"), [("1", "4.20"), ("g/mL", "4.20 g/mL"), ("%", "4.20 %")]
)
def test_a_pure_number_is_printed_without_a_unit(unit: str, printed: str) -> None:
    assert read_unit(unit).put_behind("4.20") == printed
