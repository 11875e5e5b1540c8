"""A reagent table as it stands on a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.lab import LIME, make_lab
from tests.support.lime import make_lime_case
from workbook.labfile.course import Conventions
from workbook.labfile.form import TableForm
from workbook.solver.bench import prepare
from workbook.solver.table import write_table
from workbook.wire.sheet import Cell, ReagentsStep, SheetId

if TYPE_CHECKING:
    from pathlib import Path

GIVENS = {"planned_lime": "2.00 g", "planned_vinegar": "40.0 mL"}


def write(folder: Path) -> ReagentsStep:
    public = make_lab(folder, LIME).public
    (ask,) = (ask for ask in public.asks if ask.id == "plan")
    assert isinstance(ask.form, TableForm)
    return write_table(public, ask, ask.form, GIVENS)


def test_givens_are_printed_and_quantities_asked(tmp_path: Path) -> None:
    lime, vinegar = write(tmp_path).rows
    assert lime.cells == (Cell("measured", "", "2.00 g"), Cell("amount", "mol"))
    assert vinegar.cells[1:] == (Cell("amount", "mol"), Cell("equivalents", ""))


def test_rows_are_named_and_columns_headed(tmp_path: Path) -> None:
    table = write(tmp_path)
    assert [row.name for row in table.rows] == ["calcium hydroxide", "acetic acid"]
    assert [column.text for column in table.columns] == [
        "measured out",
        "amount",
        "equivalents",
    ]
    assert table.asks_limiting


def test_a_sheet_holds_the_table_with_the_students_own_givens(tmp_path: Path) -> None:
    bench = prepare(make_lab(tmp_path, LIME), Conventions())
    sheet = bench.show(SheetId("c", "chalk-in-acid", 1, "s"), make_lime_case(tmp_path))
    table = sheet.step("plan")
    assert isinstance(table, ReagentsStep)
    assert table.rows[0].cells[0].shown == "2.00 g"
