"""
Mistakes with a molar mass by algebra.

The values were computed in the project's notes on the trade, section 1.6, for triolein
and sodium hydroxide, apart from this code; M(triolein) 885.45 g/mol.
"""

from __future__ import annotations

import pytest

from tests.support.slip import build, slips, wrong_values
from workbook.graph.slip import SlipKind, slips_of

SOAP = "soap.molar_mass"

#: The kind, its number in the notes, and the value there [g/mol].
CASES = (
    (SlipKind.DIVIDED_ONE_TERM, "A01", 323.05),
    (SlipKind.DIVIDED_TOO_EARLY, "A02", 243.05),
    (SlipKind.SIGN_KEPT, "A03", 365.85),
    (SlipKind.COEFFICIENT_OFF_ONE_TERM, "A04", 277.79),
    (SlipKind.NEVER_DIVIDED, "A05", 913.35),
    (SlipKind.REAGENT_FORGOTTEN, "A06", 264.45),
    (SlipKind.WHOLE_BYPRODUCT_REMOVED, "A07", 287.44),
    (SlipKind.ION_FORGOTTEN, "A08", 281.46),
    (SlipKind.CHARGE_AS_MASS, "A09", 282.46),
    (SlipKind.ACID_FOR_SALT, "A10", 282.47),
    (SlipKind.ACID_HYDROGEN_KEPT, "A11", 305.46),
    (SlipKind.HYDROGEN_LOST, "A12", 303.44),
    (SlipKind.ONLY_DIVIDED, "A13", 295.15),
    (SlipKind.ONLY_DIVIDED, "A13 with the cation", 318.14),
    (SlipKind.ANOTHER_METAL, "A14", 320.56),
    (SlipKind.WATER_MISCOUNTED, "A15", 322.47),
    (SlipKind.WRONG_DIVISOR, "A16", 456.68),
)


@pytest.mark.parametrize(("kind", "number", "value"), CASES, ids=str)
def test_a_slip_of_the_notes_gives_the_value_of_the_notes(
    kind: SlipKind, number: str, value: float
) -> None:
    found = wrong_values(build(), SOAP, kind)
    # The notes print to a hundredth, and round masses before they subtract.
    assert any(each == pytest.approx(value, abs=0.02) for each in found), number


def test_a_charge_and_the_acid_share_one_sentence() -> None:
    # The notes: carboxylate and charge 282.46, fatty acid 282.47; name both or neither.
    charge, acid = (
        slips(build(), SOAP, kind)[0].sentence
        for kind in (SlipKind.CHARGE_AS_MASS, SlipKind.ACID_FOR_SALT)
    )
    assert charge == acid


def test_dividing_too_early_names_the_other_way_to_that_value() -> None:
    # The notes: dividing before subtracting is the same as subtracting three glycerols.
    (sentence,) = {
        each.sentence for each in slips(build(), SOAP, SlipKind.DIVIDED_TOO_EARLY)
    }
    assert sentence.startswith("Either")


def test_the_pieces_can_be_divided_too_much() -> None:
    # By hand: (885.45 - 41.07 + 22.99) / 3 = 289.12.
    found = wrong_values(build(), SOAP, SlipKind.DIVIDED_TOO_MUCH)
    assert found == [pytest.approx(289.12, abs=0.01)]


def test_the_pieces_can_go_undivided() -> None:
    # By hand: 885.45 - 41.07 + 22.99 = 867.37.
    found = wrong_values(build(), SOAP, SlipKind.NEVER_DIVIDED)
    assert any(each == pytest.approx(867.37, abs=0.01) for each in found)


def test_a_step_without_pieces_has_none_of_these() -> None:
    kinds = {slip.kind for slip in slips_of(build(), "oil_mass")}
    assert kinds.isdisjoint({kind for kind, _, _ in CASES})
