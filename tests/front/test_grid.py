"""A table with places to answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.front.bell import Bell
from workbook.front.grid import Cell, Grid, Row

if TYPE_CHECKING:
    from tests.front.stage import Browser

ROWS = (
    Row("oil", (Cell("shown", text="12 g"), Cell("text", key="oil mol", label="oil"))),
    Row("wax", (Cell("tick", key="wax first", label="wax"), Cell("shown"))),
)


def make(bell: Bell | None = None) -> Grid:
    return Grid(("", "mass", "amount"), ROWS, bell or Bell())


def test_every_place_is_empty_at_the_start() -> None:
    assert make().values == {"oil mol": "", "wax first": ""}


def test_what_the_browser_tells_is_kept_as_it_was_typed() -> None:
    grid = make()
    grid.view.set_state({"values": {"oil mol": " 0,0136 mol", "gold": "x"}})
    assert grid.values == {"oil mol": " 0,0136 mol", "wax first": ""}


def test_only_places_of_the_table_are_filled() -> None:
    grid = make()
    grid.values = {"wax first": "yes", "gold": "x"}
    assert grid.view.values == {"wax first": "yes"}


def test_a_change_and_enter_ring_the_bell(browser: Browser) -> None:
    rung: list[str] = []
    bell = Bell(lambda: rung.append("change"), lambda: rung.append("enter"))
    grid = make(bell)
    grid.view.set_state({"values": {"oil mol": "1"}})
    browser.enter(grid.view)
    assert rung == ["change", "enter"]


def test_enter_brings_what_stands_there_ahead_of_what_is_on_its_way() -> None:
    found: list[dict[str, str]] = []
    grid = make(Bell(enter=lambda: found.append(grid.values)))
    told = {"event": "submit", "values": {"oil mol": "0.0136"}}
    data = {"method": "custom", "content": told}
    grid.view._handle_msg({"content": {"data": data}, "buffers": []})  # noqa: SLF001  what the comm calls
    assert found == [{"oil mol": "0.0136", "wax first": ""}]


def test_the_browser_is_told_headings_and_cells() -> None:
    spec = make().view.spec
    assert spec["head"] == ["", "mass", "amount"]
    assert [row["label"] for row in spec["rows"]] == ["oil", "wax"]
    assert spec["rows"][0]["cells"][0]["text"] == "12 g"
