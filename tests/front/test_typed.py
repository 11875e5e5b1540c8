"""What is told of the boxes of a card, put into them."""

from __future__ import annotations

import pytest
from ipywidgets import (
    HTML,
    Button,
    Checkbox,
    Dropdown,
    HBox,
    RadioButtons,
    Text,
    Textarea,
    VBox,
)

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


@pytest.mark.parametrize("is_shown", [True, False])
def test_ticks_and_lists_are_set_by_what_the_page_shows(*, is_shown: bool) -> None:
    ticks = [Checkbox(value=True), Checkbox()]
    radios = RadioButtons(options=[("red", "r"), ("blue", "b")], value=None)
    names = Dropdown(options=[("Choose", ""), ("olive oil", "oil")])
    typed = ["", TICKED, "", TICKED, "olive oil"]
    assert take_typed([VBox(ticks), radios, names], typed, is_shown=is_shown)
    assert [tick.value for tick in ticks] == [False, True]
    assert (radios.value, names.value) == ("b", "oil")


def test_nothing_ticked_and_nothing_chosen_is_nothing() -> None:
    radios = RadioButtons(options=[("red", "r"), ("blue", "b")], value="r")
    names = Dropdown(options=[("oil", "o")], value="o")
    assert take_typed([radios, names], ["", "", ""], is_shown=True)
    assert (radios.value, names.value) == (None, None)


def test_what_is_fixed_is_not_changed_by_a_message_from_before() -> None:
    radios = RadioButtons(options=["red", "blue"], value="red", disabled=True)
    box = Text("24.50 g", disabled=True)
    assert take_typed([radios, box], ["", TICKED, "24.60 g"], is_shown=False)
    assert (radios.value, box.value) == ("red", "24.50 g")
