"""
Misreadings that are named: a burette at 24.37 mL, and glass with coarser scales.

The values are worked out by the formulas of the notes on the trade, section 1.1.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.kiln import make_kiln_case
from tests.support.lab import KILN, edit
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE, TOGETHER
from workbook.judge.case import Case
from workbook.judge.judge import judge
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.verdict import Verdict

OVEN = 'instrument = "thermometer, 250 °C"\ndraw = "105.0 .. 115.0 °C"'


def read(
    folder: Path, instrument: str, shown: float, text: str, more: str = ""
) -> Verdict:
    """Return the verdict on a reading of an instrument that shows a value."""
    unit = "g" if "balance" in instrument else "mL"
    drawn = f'instrument = "{instrument}"\ndraw = "{shown} .. {shown + 1} {unit}"'
    case = make_kiln_case(folder, edit(KILN, (OVEN, drawn)) + more)
    oven = case.graph.quantities["oven"].to_base(shown)
    known = Case(case.graph, {**case.values, "oven": oven}, case.convention)
    return judge(known, "oven", {"oven": Typed(text)})


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("24.34 mL", SlipKind.MENISCUS_RIM),
        ("24.3 mL", SlipKind.LINE_BELOW),
        ("24.40 mL", SlipKind.NEAREST_LINE),
        # 3.7 divisions, taken for 0.2, 0.05 and 0.02 mL each
        ("24.74 mL", SlipKind.DIVISION_MISJUDGED),
        ("24.19 mL", SlipKind.DIVISION_MISJUDGED),
        ("24.07 mL", SlipKind.DIVISION_MISJUDGED),
        ("24.63 mL", SlipKind.COUNTED_UPWARDS),
        ("25.63 mL", SlipKind.COUNTED_UPWARDS),
        ("42.37 mL", SlipKind.DIGITS_SWAPPED),
    ],
)
def test_a_misread_burette_is_named(tmp_path: Path, text: str, kind: SlipKind) -> None:
    found = read(tmp_path, "burette, 50 mL", 24.37, text)
    assert (found.outcome, found.sentence) == (Outcome.SLIP, ALONE[kind])


@pytest.mark.parametrize("text", ["24.41 mL", "24.39 mL", "31.02 mL", "2.437 mL"])
def test_what_no_misreading_leads_to_is_not(tmp_path: Path, text: str) -> None:
    found = read(tmp_path, "burette, 50 mL", 24.37, text)
    assert found.outcome is Outcome.WRONG
    assert "The scale shows something else." in found.sentence


def test_a_line_that_is_below_and_nearest_has_one_sentence(tmp_path: Path) -> None:
    found = read(tmp_path, "cylinder, 50 mL", 34.4, "34.0 mL")
    both = frozenset({SlipKind.LINE_BELOW, SlipKind.NEAREST_LINE})
    assert found.sentence == TOGETHER[both]


@pytest.mark.parametrize(
    ("instrument", "shown", "text", "kind"),
    [
        ("cylinder, 50 mL", 34.6, "34.9 mL", SlipKind.MENISCUS_RIM),
        ("cylinder, 50 mL", 34.6, "34 mL", SlipKind.LINE_BELOW),
        # 4.6 divisions, taken for 0.5 mL each; and 5.2, taken for 0.1 mL
        ("cylinder, 50 mL", 34.6, "32.3 mL", SlipKind.DIVISION_MISJUDGED),
        ("cylinder, 25 mL", 12.6, "10.5 mL", SlipKind.DIVISION_MISJUDGED),
        ("balance, 0.01 g", 43.53, "43.35 g", SlipKind.DIGITS_SWAPPED),
    ],
)
def test_other_instruments_are_misread_as_well(
    tmp_path: Path, instrument: str, shown: float, text: str, kind: SlipKind
) -> None:
    assert read(tmp_path, instrument, shown, text).sentence == ALONE[kind]


def test_two_that_fit_are_none(tmp_path: Path) -> None:
    # 3.7 divisions of 0.2 mL, to a tenth of one; and 24.37 with two digits exchanged.
    found = read(tmp_path, "burette, 50 mL", 24.37, "24.73 mL")
    assert found.outcome is Outcome.WRONG


def test_who_writes_no_digit_between_lines_has_read_a_line(tmp_path: Path) -> None:
    # The rim would be at 24.34 mL as well.
    found = read(tmp_path, "burette, 50 mL", 24.37, "24.3 mL")
    assert found.sentence == ALONE[SlipKind.LINE_BELOW]


def test_a_kind_that_is_switched_off_is_not_named(tmp_path: Path) -> None:
    off = '\n[slips]\noff = ["meniscus_rim"]\n'
    found = read(tmp_path, "burette, 50 mL", 24.37, "24.34 mL", off)
    assert found.outcome is Outcome.WRONG
