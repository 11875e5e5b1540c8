"""The place to fill in a table of reagents."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from tests.front.stage import PLAN
from workbook.front.bell import Bell
from workbook.front.reagents import ReagentsPad
from workbook.wire.answer import Filled, Filling, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser

FILLED = Filled(
    (
        Filling("oil", "amount", "0,0136 mol"),
        Filling("wax", "amount", ""),
        Filling("wax", "ratio", "3"),
    ),
    "wax",
)
VALUES = {"oil amount": "0,0136 mol", "wax ratio": "3"}


def test_cells_are_read_as_they_were_typed(browser: Browser) -> None:
    pad = ReagentsPad(PLAN, Bell())
    pad.grid.view.set_state({"values": VALUES})
    browser.choose(pad.limiting, 2)
    assert pad.read() == FILLED


def test_an_earlier_table_comes_back_and_other_answers_do_not() -> None:
    pad = ReagentsPad(PLAN, Bell())
    pad.write(FILLED)
    pad.write(Typed("wax"))
    assert pad.read() == FILLED


def test_a_reagent_that_the_sheet_has_not_is_left_out() -> None:
    pad = ReagentsPad(PLAN, Bell())
    pad.write(Filled((Filling("gold", "amount", "1"),), "gold"))
    assert {cell.text for cell in pad.read().cells} == {""}
    assert pad.read().limiting == ""


def test_every_cell_is_named_by_row_column_and_unit() -> None:
    rows = ReagentsPad(PLAN, Bell()).grid.view.spec["rows"]
    cells = [cell for row in rows for cell in row["cells"]]
    assert [cell["label"] for cell in cells if cell["kind"] == "text"] == [
        "almond oil, amount, in mol",
        "wax, amount, in mol",
        "wax, eq",
    ]
    assert [cell["text"] for cell in cells if cell["kind"] == "shown"] == [
        "12 g",
        "—",
        "—",
    ]


def test_what_limits_is_asked_only_where_the_sheet_does() -> None:
    assert len(ReagentsPad(PLAN, Bell()).body) == 2
    assert len(ReagentsPad(replace(PLAN, asks_limiting=False), Bell()).body) == 1


def test_a_change_and_enter_ring_the_bell(browser: Browser) -> None:
    rung: list[str] = []
    bell = Bell(lambda: rung.append("change"), lambda: rung.append("enter"))
    pad = ReagentsPad(PLAN, bell)
    browser.choose(pad.limiting, 1)
    browser.enter(pad.grid.view)
    assert rung == ["change", "enter"]
