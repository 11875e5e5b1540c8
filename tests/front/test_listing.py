"""Answers that are lists and tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.front.stage import MECHANISM, ONE, ORDER, PLAN, PREDICTION, SEVERAL, STREAMS
from workbook.front.listing import (
    show_choice,
    show_filled,
    show_matching,
    show_order,
    show_typed,
)
from workbook.wire.answer import Chosen, Filled, Filling, Match, Matched, Ordered

if TYPE_CHECKING:
    from workbook.wire.sheet import Step


@pytest.mark.parametrize(
    ("step", "ticked", "texts"),
    [
        (ONE, ("oil",), ["the oil"]),
        (SEVERAL, ("goggles", "gloves"), ["goggles", "gloves"]),
        (SEVERAL, ("goggles", "elsewhere"), ["goggles"]),
        (PREDICTION, ("soft",), ["soft"]),
    ],
)
def test_a_choice_is_what_was_ticked(
    step: Step, ticked: tuple[str, ...], texts: list[str]
) -> None:
    items = "".join(f"<li>{text}</li>" for text in texts)
    assert show_choice(step, Chosen(ticked)) == f"<ul>{items}</ul>"


def test_an_order_is_numbered_as_it_was_put() -> None:
    shown = show_order(ORDER, Ordered(("weigh", "gone", "heat")))
    assert shown == "<ol><li>weigh the wax</li><li>heat the bath</li></ol>"


def test_a_mechanism_stands_with_its_formulas_and_escaped() -> None:
    shown = show_order(MECHANISM, Ordered(("parts", "loses")))
    assert "<li>the salt parts: AB → A⁺ + B⁻</li>" in shown
    assert "it loses &lt;B&gt;" in shown


def test_each_row_of_a_matching_says_what_belongs_to_it() -> None:
    shown = show_matching(STREAMS, Matched((Match("oil", ("drum", "gone")),)))
    assert '<th scope="row">almond oil</th><td>the drum</td>' in shown
    assert '<th scope="row">wax</th><td>—</td>' in shown


def test_a_table_of_reagents_has_what_is_given_and_what_was_typed() -> None:
    cells = (Filling("oil", "amount", "<0.01>"), Filling("wax", "ratio", "1.5"))
    shown = show_filled(PLAN, Filled(cells, limiting="wax"))
    assert "<td>12 g</td>" in shown
    assert '<td><bdi class="typed">&lt;0.01&gt;</bdi> mol</td>' in shown
    assert "Runs out first: wax" in shown


def test_typed_text_can_t_turn_the_words_around_it() -> None:
    assert show_typed("a<b") == '<bdi class="typed">a&lt;b</bdi>'
