"""Answers and points in words."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.support.lime import make_lime_case
from workbook.marking.wording import say_answer, say_points
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Match,
    Matched,
    Ordered,
    Placed,
    Typed,
)

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Ask


@pytest.mark.parametrize(
    ("points", "text"),
    [("0", "0"), ("1.50", "1.5"), ("2.00", "2"), ("20", "20"), ("0.1", "0.1")],
)
def test_points_have_no_needless_zeros(points: str, text: str) -> None:
    assert say_points(Decimal(points)) == text


@pytest.mark.parametrize(
    ("step", "answer", "text"),
    [
        ("dish", Typed("45,05 g\n"), r"45,05 g\n"),
        (
            "oil_mass",
            Built((Placed("oil.density", turned=True),), "12 g"),
            "1/[oil.density] = 12 g",
        ),
        ("soap.molar_mass", Derived(("a = 1", "b = 2"), "3"), "a = 1; b = 2; 3"),
        ("limiting", Chosen(("oil",)), "olive oil"),
    ],
)
def test_an_answer_is_told_in_one_line(
    asks: dict[str, Ask], step: str, answer: Answer, text: str
) -> None:
    assert say_answer(answer, asks[step]) == text


def test_an_answer_of_a_table_or_an_order_is_told_in_one_line(tmp_path: Path) -> None:
    case = make_lime_case(tmp_path)
    asks = {ask.id: ask for ask in case.graph.lab.public.asks}
    matched = Matched((Match("lime", ("base",)), Match("vinegar", ())))
    assert say_answer(matched, asks["streams"]) == "lime: Aqueous base; vinegar: "
    ordered = Ordered(("wet", "paper"))
    assert say_answer(ordered, asks["filtering"]) == (
        "Wet the paper; Lay the filter paper"
    )
