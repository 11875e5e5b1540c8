"""The sign of an exponent that was lost; E02 of the notes on the trade."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case, verdict_on
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE
from workbook.graph.span import Span
from workbook.judge.exponent import is_sign_lost
from workbook.judge.typed import Typing, read_typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case


@pytest.mark.parametrize(
    ("text", "is_lost"),
    [
        ("1.29e2 mol", True),
        # In the student's own unit: 12.9 mmol, or 1.29 × 10^4 µmol.
        ("1.29 × 10^-4 µmol", True),
        ("1.29e-2 mol", False),
        ("1.32e2 mol", False),
        # One place only: 12.9 mmol and 0.129 mmol.
        ("1.29e-1 mmol", False),
    ],
)
def test_a_lost_sign_is_seen(case: Case, text: str, is_lost: bool) -> None:  # noqa: FBT001 - a column of the table
    quantity = case.graph.quantities["oil_amount"]
    typing = read_typed(case, quantity, text)
    assert isinstance(typing, Typing)
    assert is_sign_lost(quantity, typing, Span(0.01285, 0.01287)) is is_lost


def test_it_is_told(case: Case) -> None:
    # 11.5 mL × 1.219 g/mL × 0.200 / 39.997 g/mol = 7.01 × 10^-2 mol.
    found = verdict_on(case, "lye_amount", "7.01e2 mol", lye_volume="11.5 mL")
    assert found.outcome is Outcome.SLIP
    assert found.sentence == ALONE[SlipKind.EXPONENT_SIGN]


def test_where_a_prefix_could_be_it_too_both_are_told(compiled: CompiledGraph) -> None:
    # 2.00 g / 885.453 g/mol = 2.26 × 10^-3 mol: a million times less than 2.26 × 10^3.
    case = make_case(compiled, planned_oil=2.00)
    found = verdict_on(case, "planned_oil_amount", "2.26e3 mol")
    assert found.outcome is Outcome.SLIP
    assert ALONE[SlipKind.MILLION] in found.sentence
    assert "sign of the exponent" in found.sentence
