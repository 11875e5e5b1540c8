"""What is told of the boxes of a card, put into them."""

from __future__ import annotations

import pytest
from ipywidgets import HTML, Button, HBox, Text, Textarea, VBox

from workbook.front.bell import Bell
from workbook.front.grid import TICKED, Cell, Grid, Row
from workbook.front.typed import take_typed

ROWS = (
    Row("oil", (Cell("shown", text="12 g"), Cell("text", key="oil mol", label="oil"))),
    Row("wax", (Cell("tick", key="wax first", label="wax"), Cell("shown"))),
)


@pytest.mark.parametrize("is_shown", [True, False])
def test_boxes_and_cells_are_filled_in_the_order_of_the_page(*, is_shown: bool) -> None:
    one, two, grid = Text(), Textarea(), Grid(("", "a", "b"), ROWS, Bell())
    page = [HTML(), one, VBox([HBox([Button(), grid.view]), two])]
    typed = ["13.6 g", "0.0136 mol", TICKED, "lines"]
    assert take_typed(page, typed, is_shown=is_shown)
    assert (one.value, two.value) == ("13.6 g", "lines")
    assert grid.values == {"oil mol": "0.0136 mol", "wax first": TICKED}


@pytest.mark.parametrize("typed", [[], ["1", "2"], [3], [None]])
def test_what_does_not_fit_the_boxes_is_left_alone(typed: list[object]) -> None:
    box = Text("12")
    assert not take_typed([box], typed, is_shown=True)
    assert box.value == "12"


def test_a_box_that_holds_it_already_does_not_change() -> None:
    changes: list[object] = []
    box, grid = Text("12"), Grid(("", "a", "b"), ROWS, Bell())
    for widget, name in ((box, "value"), (grid.view, "values")):
        widget.observe(changes.append, names=name)
    assert take_typed([box, grid.view], ["12", "", ""], is_shown=True)
    assert changes == []
