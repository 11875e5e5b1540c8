"""What an instrument shows, in words."""

from __future__ import annotations

from decimal import Decimal

import pytest

from workbook.labfile.instrument import find_instrument, known_instruments
from workbook.measure.rounding import write
from workbook.picture.words import describe, label, print_on, say


# By hand: lines of 0.5 mL, numbered every 5 mL; of 0.1 mL, every 1 mL, downwards; of
# 1 °C, every 10 °C.
@pytest.mark.parametrize(
    ("name", "shown", "said"),
    [
        (
            "cylinder, 25 mL",
            "12.6",
            (
                "{} stands between the fifth and the sixth "
                "line above the line numbered 10, two tenths of the way up."
            ),
        ),
        (
            "cylinder, 25 mL",
            "14.8",
            (
                "{} stands between the ninth line above the "
                "line numbered 10 and the line numbered 15, six tenths of the way up."
            ),
        ),
        (
            "burette, 50 mL",
            "20.01",
            (
                "{} stands between the line numbered 20 and "
                "the first line below it, one tenth of the way down."
            ),
        ),
        (
            "thermometer, 110 °C",
            "-3.4",
            (
                "The top of the column stands between the sixth and the seventh line "
                "above the line numbered −10, six tenths of the way up."
            ),
        ),
        ("cylinder, 25 mL", "15.0", "{} touches the line numbered 15."),
        (
            "cylinder, 25 mL",
            "12.5",
            "{} touches the fifth line above the line numbered 10.",
        ),
        ("burette, 50 mL", "0.00", "{} touches the line numbered 0."),
        ("volumetric pipette, 25 mL", "25.00", "{} touches the ring."),
        ("tared balance, 0.01 g", "3.40", "3.40 g"),
    ],
)
def test_a_sentence_counts_lines_and_tenths(name: str, shown: str, said: str) -> None:
    expected = said.format("The lowest point of the meniscus")
    assert say(find_instrument(name), Decimal(shown)) == expected


@pytest.mark.parametrize("shown", ["12.5", "12.6", "10.0", "24.9"])
def test_a_sentence_never_states_the_value(shown: str) -> None:
    assert shown not in say(find_instrument("cylinder, 25 mL"), Decimal(shown))


@pytest.mark.parametrize("name", known_instruments())
def test_an_instrument_is_described_with_its_unit(name: str) -> None:
    instrument = find_instrument(name)
    described = describe(instrument)
    assert described.startswith(instrument.kind.value)
    assert instrument.unit.symbol in described
    if instrument.pattern is not None:
        assert f"one division is {write(instrument.division)}" in described


def test_a_scale_that_grows_downwards_says_so() -> None:
    assert "numbers grow downwards" in describe(find_instrument("burette, 50 mL"))
    assert "downwards" not in describe(find_instrument("cylinder, 50 mL"))


def test_a_tared_balance_says_so() -> None:
    assert "tared" in describe(find_instrument("tared balance, 0.1 g"))
    assert "tared" not in describe(find_instrument("balance, 0.1 g"))


# Limits of error of class A: ASTM E1272-02(2012), Table 1 (read); E969-02(2012),
# Table 1 (read for 5 mL); ISO 385, quoted on a burette accuracy page (second-hand).
@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("cylinder, 10 mL", "10 mL, A, 20 °C, ±0.10 mL"),
        ("cylinder, 25 mL", "25 mL, A, 20 °C, ±0.17 mL"),
        ("cylinder, 50 mL", "50 mL, A, 20 °C, ±0.25 mL"),
        ("cylinder, 100 mL", "100 mL, A, 20 °C, ±0.50 mL"),
        ("volumetric pipette, 5 mL", "5 mL, A, 20 °C, ±0.01 mL"),
        ("burette, 50 mL", "50 mL, A, 20 °C, ±0.05 mL"),
        ("thermometer, 110 °C", "°C"),
    ],
)
def test_the_limit_of_error_is_printed_on_the_glass(name: str, printed: str) -> None:
    assert print_on(find_instrument(name)) == printed


@pytest.mark.parametrize(
    ("value", "shown"),
    [("0", "0"), ("0.0", "0"), ("100", "100"), ("2.50", "2.5"), ("-10", "−10")],
)
def test_a_number_on_glass_has_no_trailing_zeros(value: str, shown: str) -> None:
    assert label(Decimal(value)) == shown
