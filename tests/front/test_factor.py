"""A factor in words, and its row of buttons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.front.stage import CHAIN
from workbook.front.factor import FactorRow, print_factor
from workbook.wire.sheet import Factor

if TYPE_CHECKING:
    from tests.front.stage import Browser


def test_a_factor_is_printed_on_one_line() -> None:
    assert print_factor(CHAIN.offers[0]) == "density: 0.911 g / 1 mL"


def test_a_pure_number_is_printed_without_a_blank_after_it() -> None:
    assert print_factor(Factor("h", "half", "1", "", "2", "", "", "")) == "half: 1 / 2"


def test_a_row_calls_back_with_its_own_index(browser: Browser) -> None:
    turned: list[int] = []
    taken: list[int] = []
    row = FactorRow(2, turned.append, taken.append)
    browser.click(row.turn)
    browser.click(row.take)
    assert (turned, taken) == ([2], [2])


def test_a_label_can_t_put_elements_into_the_page() -> None:
    row = FactorRow(0, lambda _: None, lambda _: None)
    row.show(Factor("f", "<b>", "1", "", "2", "", "", ""), is_pointed=False)
    assert "<b>" not in row.name.value
