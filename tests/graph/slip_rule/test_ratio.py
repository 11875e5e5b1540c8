"""Coefficients of another pair, on grams, or subscripts; shares from the notes."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from tests.support.slip import build, slips, times_right, with_quantity
from workbook.graph.slip import SlipKind, slips_of
from workbook.graph.slip_rule.ratio import fraction_node
from workbook.relation.text import to_text

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


def test_a_ratio_on_grams_is_off_as_in_the_notes() -> None:
    # Notes N08: 3 · m(oil) for the yield, × 2.908.
    found = times_right(build(), "theoretical_yield", SlipKind.RATIO_ON_GRAMS)
    assert all(each == pytest.approx(2.908, abs=5e-4) for each in found)
    assert found


def test_a_ratio_on_grams_shares_its_sentence_with_the_wrong_molar_mass() -> None:
    # Notes, rule 1: both are 3 · m(oil).
    grams = slips(build(), "theoretical_yield", SlipKind.RATIO_ON_GRAMS)
    masses = slips(build(), "theoretical_yield", SlipKind.MOLAR_MASS_OF_ANOTHER)
    assert grams[0].sentence in {each.sentence for each in masses}
    assert grams[0].sentence.startswith("Either")


def test_another_product_is_off_as_in_the_notes() -> None:
    # Notes N13: glycerol for soap, × 0.101.
    found = times_right(build(), "theoretical_yield", SlipKind.ANOTHER_PRODUCT)
    assert found == [pytest.approx(0.101, abs=5e-4)]


def test_the_wrong_pair_gives_its_own_coefficients() -> None:
    # acid + 2 lye -> sulfate + 2 water: 1/2 is right, every other pair makes 1.
    found = times_right(build(), "acid_amount", SlipKind.RATIO_OF_ANOTHER_PAIR)
    assert found == [pytest.approx(2.0)]


def test_a_subscript_can_stand_for_a_coefficient() -> None:
    # H2SO4 with 2 and 4, the lye's coefficient 2: 2/2 and 4/2, for 1/2.
    found = times_right(build(), "acid_amount", SlipKind.SUBSCRIPT_AS_COEFFICIENT)
    assert sorted(found) == [pytest.approx(2.0), pytest.approx(4.0)]


def test_a_large_subscript_is_not_taken_for_a_coefficient() -> None:
    # C18H33NaO2: nobody reads 18 or 33 as a coefficient.
    wrong = slips(build(), "soap_by_oil", SlipKind.SUBSCRIPT_AS_COEFFICIENT)
    assert not any("33" in to_text(each.relation, str) for each in wrong)


def test_all_coefficients_can_be_left_out_at_once() -> None:
    # Notes Y16: atom economy without coefficients; CaCl2 110.98 over 100.09 + 36.46
    # for 100.09 + 2 × 36.46.
    row = (
        'unit = "%"\nis = "100 * ratio(salt, chalk) * salt.molar_mass / '
        '(chalk.molar_mass + ratio(acid, chalk) * acid.molar_mass)"'
    )
    graph = with_quantity("economy", row)
    found = slips(graph, "economy", SlipKind.ALL_COEFFICIENTS_LEFT_OUT)
    assert len(found) == 1


def test_a_chain_offers_no_subscripts(graph: Graph) -> None:
    # The olive-oil lab asks for the amount of soap as a chain.
    assert slips(graph, "soap_amount", SlipKind.SUBSCRIPT_AS_COEFFICIENT) == []
    assert slips(graph, "acid_mass", SlipKind.SUBSCRIPT_AS_COEFFICIENT) != []


def test_a_fraction_is_written_in_whole_numbers() -> None:
    assert to_text(fraction_node(Fraction(3, 2)), str) == "3 / 2"
    assert to_text(fraction_node(Fraction(3)), str) == "3"


def test_what_is_right_anyway_is_no_slip() -> None:
    # One chalk gives one salt: leaving the ratio out shows nothing.
    row = 'unit = "mol"\nof = "salt"\nis = "ratio(salt, chalk) * chalk_amount"'
    graph = with_quantity("salt_made", row)
    kinds = {slip.kind for slip in slips_of(graph, "salt_made")}
    assert SlipKind.COEFFICIENTS_LEFT_OUT not in kinds
