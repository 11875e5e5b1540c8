"""Solutions, dilutions and titrations against print; sources in the data file."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from workbook.matter.elements import load_weights
from workbook.matter.equation import balance, read_equation
from workbook.matter.formula import molar_mass, read_formula
from workbook.matter.solution import Solution
from workbook.measure.figures import Known
from workbook.measure.rounding import Ties

DATA = tomllib.loads(
    (Path(__file__).parents[1] / "data" / "published_solutions.toml").read_text("utf-8")
)
WEIGHTS = load_weights("2021 abridged")

Row = dict[str, Any]


def cases(kind: str) -> list[Any]:
    return [pytest.param(row, id=row["id"]) for row in DATA[kind]]


def mass_of(formula: str) -> Decimal:
    return molar_mass(read_formula(formula), WEIGHTS)


def bottle(row: Row, solute: str) -> Solution:
    """Return the solution that a row describes, by whichever strength it gives."""
    molar = mass_of(solute)
    if "molarity" in row:
        return Solution.of_molarity(Decimal(row["molarity"]), molar)
    if "mass_fraction" in row:
        fraction, density = Decimal(row["mass_fraction"]), Decimal(row["density"])
        return Solution.of_mass_fraction(fraction, density, molar)
    return Solution(Decimal(row["mass_per_volume"]), molar)


def assert_close(found: Decimal, row: Row, key: str) -> None:
    assert abs(found - Decimal(row[key])) <= Decimal(row["allow"])


@pytest.mark.parametrize("row", cases("strength"))
def test_what_is_dissolved_gives_the_published_molarity(row: Row) -> None:
    molar = mass_of(row["solute"])
    mass_g = Decimal(row["mass"]) if "mass" in row else Decimal(row["amount"]) * molar
    mass_per_volume = mass_g / Decimal(row["volume"]) * 1000
    assert_close(Solution(mass_per_volume, molar).molarity, row, "molarity")


@pytest.mark.parametrize("row", cases("content"))
def test_a_volume_holds_the_published_mass(row: Row) -> None:
    solution = bottle(row, row["solute"])
    if row.get("find") == "volume":
        amount_mol = Decimal(row["mass"]) / solution.molar_mass
        assert_close(solution.volume_of(amount_mol), row, "volume")
    else:
        mass_g = solution.mass_in(Decimal(row["volume"]))
        assert_close(mass_g / Decimal(row.get("purity", "1")), row, "mass")


@pytest.mark.parametrize("row", cases("dilution"))
def test_a_dilution_comes_out_as_published(row: Row) -> None:
    taken, strong = Decimal(row["volume"]), bottle(row, "NaCl")
    weak = Solution.of_molarity(Decimal(row["to_molarity"]), strong.molar_mass)
    filled = Decimal(row["to_volume"])
    found = {
        "to_molarity": lambda: strong.dilute(taken, filled).molarity,
        "to_volume": lambda: weak.volume_of(strong.amount_in(taken)),
        "volume": lambda: strong.volume_of(weak.amount_in(filled)),
    }
    assert_close(found[row["find"]](), row, row["find"])


def amount_of(known: Row) -> Decimal:
    if "amount" in known:
        return Decimal(known["amount"])
    if "mass" in known:
        return Decimal(known["mass"]) / mass_of(known["species"])
    return bottle(known, known["species"]).amount_in(Decimal(known["volume"]))


@pytest.mark.parametrize("row", cases("titration"))
def test_a_titration_comes_out_as_published(row: Row) -> None:
    known, wanted = row["known"], row["wanted"]
    ratio = balance(read_equation(row["equation"])).ratio(
        wanted["species"], known["species"]
    )
    amount_mol = amount_of(known) * ratio.numerator / ratio.denominator
    find = list(wanted)[-1]
    found = {
        "mass": lambda: amount_mol * mass_of(wanted["species"]),
        "molarity": lambda: amount_mol / Decimal(wanted["volume"]) * 1000,
        "volume": lambda: bottle(wanted, wanted["species"]).volume_of(amount_mol),
    }
    assert_close(found[find](), {**wanted, "allow": row["allow"]}, find)


def acidity(row: Row) -> Decimal:
    """Return the pH; water's ion product is 1.00e-14, its own ions are left out."""
    acid, base = row["acid"], row.get("base")
    left_mol = bottle(acid, "HCl").amount_in(Decimal(acid["volume"]))
    volume_ml = Decimal(acid["volume"])
    if base:
        left_mol -= bottle(base, "NaOH").amount_in(Decimal(base["volume"]))
        volume_ml += Decimal(base["volume"])
    if left_mol == 0:
        return Decimal(7)
    power = (abs(left_mol) / volume_ml * 1000).log10()
    return -power if left_mol > 0 else 14 + power


@pytest.mark.parametrize("row", cases("mixture"))
def test_what_an_acid_and_a_base_leave_has_the_published_ph(row: Row) -> None:
    assert_close(acidity(row), row, "ph")


@pytest.mark.parametrize("row", cases("recovery"))
def test_what_stays_dissolved_is_lost_as_published(row: Row) -> None:
    molar, volume_ml = mass_of(row["solute"]), Decimal(1000)
    hot = Solution(Decimal(row["hot"]), molar).mass_in(volume_ml)
    cold = Solution(Decimal(row["cold"]), molar).mass_in(volume_ml)
    assert_close(100 * (hot - cold) / hot, row, "percent")


def known(text: str) -> Known:
    value = Decimal(text)
    return Known(value, int(value.as_tuple().exponent))


@pytest.mark.parametrize("row", cases("density"))
def test_a_density_gives_the_published_value_in_its_figures(row: Row) -> None:
    find = [key for key in row if key in {"mass", "volume"}][-1]
    density = known(row["density"])
    if find == "mass":
        found = known(row["volume"]) * density
    else:
        found = known(row["mass"]) / density
    assert str(found.round(Ties.EVEN)) == row[find]
