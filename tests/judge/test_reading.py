"""Readings: the digits that an instrument supports, no more and no fewer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.judge.test_band import widened
from tests.support.kiln import make_kiln_case
from tests.support.lab import KILN, edit
from tests.support.student import verdict_on
from workbook.judge.judge import judge
from workbook.judge.own import own_of
from workbook.judge.reading import judge_reading
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        # 12.5 mL in a cylinder with a line every 0.5 mL: read to a tenth, which may be
        # one off (OpenStax, Chemistry 2e, section 1.5).
        ("12.5 mL", Outcome.RIGHT),
        ("12.4 mL", Outcome.RIGHT),
        ("12.6 mL", Outcome.RIGHT),
        ("12.3 mL", Outcome.WRONG),
        ("12.7 mL", Outcome.WRONG),
        # Too many digits, and too few.
        ("12.50 mL", Outcome.FIGURES),
        ("12.53 mL", Outcome.FIGURES),
        ("12 mL", Outcome.WRONG),
        # Any unit of volume.
        ("0.0125 L", Outcome.RIGHT),
        ("12.5 cm³", Outcome.RIGHT),
        ("0.01250 L", Outcome.FIGURES),
        # One scale part is worth 0.5 mL, and was taken for 1 mL or 0.1 mL.
        ("13.0 mL", Outcome.WRONG),
        ("12.1 mL", Outcome.WRONG),
        ("125 mL", Outcome.WRONG),
        ("12.5 g", Outcome.DIMENSION),
        ("", Outcome.BLANK),
    ],
)
def test_a_scale_is_read_one_digit_further_than_its_lines(
    case: Case, text: str, outcome: Outcome
) -> None:
    verdict = verdict_on(case, "oil_volume", text)
    assert verdict.outcome is outcome
    assert verdict.value_holds is (outcome in {Outcome.RIGHT, Outcome.FIGURES})


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("45.20 g", Outcome.RIGHT),
        ("45.2 g", Outcome.FIGURES),  # the trailing zero was dropped
        ("45.200 g", Outcome.FIGURES),
        ("45.21 g", Outcome.WRONG),
        ("45.02 g", Outcome.SLIP),  # digits exchanged
        ("45 g", Outcome.WRONG),
        ("45200 mg", Outcome.RIGHT),  # its zeros may count or not
        ("0.04520 kg", Outcome.RIGHT),
        ("0.0452 kg", Outcome.FIGURES),
    ],
)
def test_a_display_is_copied_whole(case: Case, text: str, outcome: Outcome) -> None:
    assert verdict_on(case, "dish", text).outcome is outcome


def test_the_sentence_says_on_which_side_the_digits_are(case: Case) -> None:
    assert "shows more digits" in verdict_on(case, "dish", "45.2 g").sentence
    assert "wrote more digits" in verdict_on(case, "dish", "45.200 g").sentence


def test_an_author_can_widen_a_reading(case: Case) -> None:
    wide = widened(case, "oil_volume", "0.2 mL")
    assert verdict_on(wide, "oil_volume", "12.8 mL").outcome is Outcome.RIGHT
    assert verdict_on(wide, "oil_volume", "12.9 mL").outcome is Outcome.WRONG


def test_a_student_goes_on_from_an_accepted_reading(case: Case) -> None:
    quantity = case.graph.quantities["oil_volume"]
    shown = own_of(case, quantity, {})
    judgement = judge_reading(case, quantity, "12.6 mL", shown)
    (read,) = judgement.held
    assert (read.span.low, read.span.high) == (12.6, 12.6)


def test_what_has_no_instrument_is_no_reading(case: Case) -> None:
    quantity = case.graph.quantities["planned_oil"]
    with pytest.raises(ValueError, match="'planned_oil' is no reading"):
        judge_reading(case, quantity, "12.0 g", own_of(case, quantity, {}))


@pytest.mark.parametrize(
    ("instrument", "draw", "wrong", "advice"),
    [
        ("balance, 0.01 g", "40.00 .. 41.00 g", "44.44 g", "Copy it digit by digit"),
        ("cylinder, 25 mL", "12.0 .. 13.0 mL", "20.0 mL", "point of the meniscus"),
        ("burette, 50 mL", "12.00 .. 13.00 mL", "20.00 mL", "numbers grow downwards"),
        ("thermometer, 110 °C", "20.0 .. 21.0 °C", "33.0 °C", "where the column ends"),
        ("volumetric pipette, 25 mL", "", "24.00 mL", "what is printed on it"),
    ],
)
def test_the_advice_suits_the_instrument(
    tmp_path: Path, instrument: str, draw: str, wrong: str, advice: str
) -> None:
    range_line = f'draw = "{draw}"' if draw else ""
    old = 'instrument = "thermometer, 250 °C"\ndraw = "105.0 .. 115.0 °C"'
    new = f'instrument = "{instrument}"\n{range_line}'
    case = make_kiln_case(tmp_path, edit(KILN, (old, new)))
    said = judge(case, "oven", {"oven": Typed(wrong)})
    assert said.outcome is Outcome.WRONG
    assert advice in said.sentence
    is_glass_with_scale = instrument.startswith(("cylinder", "burette"))
    assert ("meniscus" in said.sentence) is is_glass_with_scale
