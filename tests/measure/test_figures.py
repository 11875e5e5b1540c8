"""Figures pass through arithmetic by the usual rules."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.measure.figures import Known
from workbook.measure.rounding import Ties, write, write_power


def known(text: str) -> Known:
    """Return a value of which every written digit is sure."""
    value = Decimal(text)
    exponent = value.as_tuple().exponent
    assert isinstance(exponent, int)
    return Known(value, exponent)


def exact(text: str) -> Known:
    """Return a counted number."""
    return Known(Decimal(text), None)


def rounded(result: Known) -> str:
    """Return a result as it would be reported."""
    return write(result.round(Ties.EVEN))


@pytest.mark.parametrize(
    ("result", "reported"),
    [
        # Chemistry 2e (OpenStax), section 1.5, example 1.4 and its check.
        (known("1.0023") + known("4.383"), "5.385"),
        (known("486") - known("421.23"), "65"),
        (known("2.334") + known("0.31"), "2.64"),
        (known("56.533") - known("55.8752"), "0.658"),
        # The same, end of chapter; 27 340 is known to tens.
        (known("14.98") + Known(Decimal(27340), 1) + known("84.7593"), "27440"),
        (known("42.7") + known("0.259"), "43.0"),
    ],
)
def test_sums_are_known_to_the_coarsest_place(result: Known, reported: str) -> None:
    assert rounded(result) == reported


@pytest.mark.parametrize(
    ("result", "reported"),
    [
        # Chemistry 2e (OpenStax), section 1.5, example 1.5 and its check.
        (known("0.6238") * known("6.6"), "4.1"),
        (known("421.23") / known("486"), "0.867"),
        (known("2.334") * known("0.320"), "0.747"),
        (known("55.8752") / known("56.53"), "0.9884"),
        # The same, example 1.6 and its check.
        (known("13.44") * known("5.920") * known("2.54"), "202"),
        (known("31.1415") / known("30.13"), "1.034"),
        # The same, end of chapter.
        (known("28.0") / known("13.483"), "2.08"),
        (known("8119") * known("0.000023"), "0.19"),
    ],
)
def test_products_are_known_to_the_fewest_figures(result: Known, reported: str) -> None:
    assert rounded(result) == reported


@pytest.mark.parametrize(
    ("result", "reported"),
    [
        # Chemistry 2e (OpenStax), section 1.5, end of chapter.
        (known("628") * known("342"), "2.15 × 10^5"),
        (known("5.63e2") * known("7.4e3"), "4.2 × 10^6"),
    ],
)
def test_a_large_product_is_reported_with_a_power(result: Known, reported: str) -> None:
    assert write_power(result.round(Ties.EVEN)) == reported


def test_figures_are_lost_in_a_difference() -> None:
    # Chemistry 2e (OpenStax), section 1.5, example 1.7.
    density = known("69.658") / (known("22.4") - known("13.5"))
    assert density.figures == 2
    assert rounded(density) == "7.8"


def test_no_digit_is_dropped_on_the_way() -> None:
    # Chemistry 2e (OpenStax), section 3.3, example 3.17: 77.4 g with the guard digit,
    # 77.1 g if 1.325 mol is cut to 1.32 mol first.
    amount = known("5.30") * known("0.250")
    assert rounded(amount * known("58.44")) == "77.4"
    assert rounded(known("1.32") * known("58.44")) == "77.1"


def test_a_counted_number_limits_nothing() -> None:
    # By hand: three moles of soap for each 0.0258 mol of oil.
    assert rounded(known("0.0258") * exact("3")) == "0.0774"
    assert (exact("3") / exact("2")).figures is None
    assert exact("1.5").round(Ties.EVEN) == Decimal("1.5")


def test_a_logarithm_has_as_many_decimals_as_its_argument_has_figures() -> None:
    # Chemistry 2e (OpenStax), section 14.7: 0.0333 mol/L of acid has pH 1.477 or 1.478,
    # with and without a guard digit.
    acidity = -known("0.0333").log10()
    assert acidity.place == -3
    assert rounded(acidity) == "1.478"


def test_a_power_of_ten_has_as_many_figures_as_its_exponent_has_decimals() -> None:
    # Chemistry 2e (OpenStax), section 14.2: a pH of 7.3 is 5 × 10^-8 mol/L, and blood
    # of pH 7.40 holds 4.0 × 10^-8 mol/L; both are from memory.
    assert rounded((-known("7.40")).exp10()) == "0.000000040"
    assert (-known("7.3")).exp10().figures == 1
    assert exact("3").exp10() == exact("1000")


def test_the_logarithm_of_a_counted_number_is_exact() -> None:
    assert exact("100").log10() == exact("2")


def test_a_power_and_a_root_keep_the_figures() -> None:
    # By hand: 2.54 squared is 6.4516; its root is 2.54 again.
    area = known("2.54") ** 2
    assert rounded(area) == "6.45"
    assert rounded(area.sqrt()) == "2.54"


def test_a_difference_of_equals_has_no_figure_left() -> None:
    nothing = known("5.32") - known("5.30") - known("0.020")
    assert nothing.round(Ties.EVEN) == 0
    assert (nothing * known("2.0")).round(Ties.EVEN) == 0


def test_a_difference_below_its_place_has_no_figure() -> None:
    assert (known("5.3") - known("5.29")).figures == 0


def test_a_zero_divided_stays_a_zero_with_a_place() -> None:
    # By hand: 0.00 g, sure to hundredths, over 2.0 g is sure to hundredths.
    share = known("0.00") / known("2.0")
    assert share.value == 0
    assert share.place == -2


def test_division_by_zero_is_pythons_own_error() -> None:
    with pytest.raises(ZeroDivisionError):
        known("1.0") / known("0.0")


def test_the_smallest_of_several_can_be_found() -> None:
    amounts = [known("0.0258"), known("0.0172"), exact("1")]
    assert min(amounts) == known("0.0172")
    assert max(amounts) == exact("1")


POSITIVE = st.decimals("0.0001", "9999", places=4)


@given(POSITIVE, POSITIVE)
def test_a_product_never_has_more_figures_than_a_factor(a: Decimal, b: Decimal) -> None:
    product = Known(a, -4) * Known(b, -4)
    assert product.figures == min(
        figures for each in (a, b) if (figures := Known(each, -4).figures) is not None
    )
