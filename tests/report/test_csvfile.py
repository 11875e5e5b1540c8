"""Tables as CSV files that are safe to open."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

import pandas as pd
import pytest
from msgspec.structs import replace

from tests.report.test_table import MARK
from workbook.report import csvfile
from workbook.report.csvfile import encode_csv, write_csv
from workbook.report.table import tabulate_steps

if TYPE_CHECKING:
    from pathlib import Path


def read(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode(), newline="")))


def test_a_table_written_in_parts_is_the_table_in_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(csvfile, "_AT_ONCE", 2)
    marks = [replace(MARK, student=f"s{number}") for number in range(5)]
    write_csv(tmp_path / "steps.csv", tabulate_steps, iter(marks))
    expected = encode_csv(tabulate_steps(marks))
    assert (tmp_path / "steps.csv").read_bytes() == expected
    write_csv(tmp_path / "none.csv", tabulate_steps, ())
    assert (tmp_path / "none.csv").read_bytes() == encode_csv(tabulate_steps(()))


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+1", "-1 g", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "\uff1d1+1", "\uff20A1"],
)
def test_a_cell_that_starts_like_a_formula_is_made_a_text(text: str) -> None:
    rows = read(encode_csv(pd.DataFrame({"typed": [text]})))
    assert rows == [["typed"], [f"'{text}"]]


@pytest.mark.parametrize(
    "text",
    ["13.6 g", "a=b", "1-2", 'say "x", then', "two\nlines", "cr\rhere", "", "NA"],
)
def test_any_other_cell_comes_back_as_it_was(text: str) -> None:
    rows = read(encode_csv(pd.DataFrame({"typed": [text], "end": ["."]})))
    assert rows[1] == [text, "."]
