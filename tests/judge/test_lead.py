"""Where a mistake leads; sums by hand, for the student of `tests.support.student`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.graph.span import Span
from workbook.judge.judge import SheetJudge
from workbook.judge.lead import LEADS, lead_anywhere, lead_as_typed, lead_by_hand
from workbook.judge.own import Own
from workbook.relation.reader import read_relation
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from workbook.judge.case import Case

#: The solution density upside down.
WRONG = read_relation(
    "lye_volume / lye.solution_density * lye.mass_fraction / lye.molar_mass"
)


@pytest.fixture(scope="module")
def owns(case: Case) -> dict[str, Own]:
    sheet = SheetJudge(case, {"lye_volume": Typed("11.5 mL")})
    names = ("lye_volume", "lye.solution_density", "lye.mass_fraction")
    found = {name: sheet.stands(name)[1] for name in (*names, "lye.molar_mass")}
    return found | {"wide": Own(Span(11.4, 11.6), found["lye_volume"].known)}


def test_values_as_they_stand_lead_to_one_number(
    case: Case, owns: dict[str, Own]
) -> None:
    # 11.5 / 1.219 × 0.200 / 39.997
    (only,) = lead_as_typed(case.graph, WRONG, 3, owns)
    assert only.low == only.high == pytest.approx(0.047173, abs=1e-6)


def test_who_rounds_on_the_way_comes_out_beside_it(
    case: Case, owns: dict[str, Own]
) -> None:
    # 9.43, 1.89, 0.0473
    *_, by_hand = lead_by_hand(case.graph, WRONG, 3, owns)
    assert by_hand.low == by_hand.high == pytest.approx(0.0473)


def test_who_carries_more_digits_comes_out_anywhere_between(
    case: Case, owns: dict[str, Own]
) -> None:
    span, *_ = lead_anywhere(case.graph, read_relation("2 * wide"), 3, owns)
    assert (span.low, span.high) == pytest.approx((22.8, 23.2))


def test_each_lead_holds_those_before_it(case: Case, owns: dict[str, Own]) -> None:
    led = [set(lead(case.graph, WRONG, 3, owns)) for lead in LEADS]
    assert led[0] < led[1] < led[2]
