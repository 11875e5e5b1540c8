"""A table for paper."""

from __future__ import annotations

from workbook.front.table import show_table


def test_columns_and_rows_are_named_for_whoever_hears_them() -> None:
    assert show_table(("", "mass"), [("oil", "12 g")]) == (
        '<table><thead><tr><td></td><th scope="col">mass</th></tr></thead>'
        '<tr><th scope="row">oil</th><td>12 g</td></tr></table>'
    )


def test_a_table_without_rows_is_left_out() -> None:
    assert show_table(("mass",), []) == ""
