"""A sheet goes through a file unchanged, and finds its steps."""

from __future__ import annotations

import msgspec
import pytest

from workbook.wire.sheet import Sheet, SheetId


def test_a_sheet_is_read_back(sheet: Sheet) -> None:
    assert msgspec.json.decode(msgspec.json.encode(sheet), type=Sheet) == sheet


@pytest.mark.parametrize(
    "step",
    [
        "plan",
        "pick",
        "guess",
        "match",
        "melts",
        "how",
        "table",
        "line",
        "notes",
        "read",
        "chain",
        "derive",
    ],
)
def test_a_step_of_either_part_is_found(sheet: Sheet, step: str) -> None:
    assert sheet.step(step).id == step


def test_a_step_that_is_not_there_is_not_found(sheet: Sheet) -> None:
    with pytest.raises(KeyError, match="nothing"):
        sheet.step("nothing")


@pytest.mark.parametrize("name", ["answer", "relation", "value", "key"])
def test_a_field_that_a_sheet_does_not_have_is_refused(sheet: Sheet, name: str) -> None:
    content = msgspec.to_builtins(sheet) | {name: "11.4 g"}
    with pytest.raises(msgspec.ValidationError, match=name):
        msgspec.convert(content, Sheet)


def test_sheets_are_told_apart_and_sorted_by_all_four_names() -> None:
    names = [("a", "b", 1, "c"), ("a", "b", 1, "d"), ("a", "b", 2, "c")]
    sheets = [SheetId(*each) for each in names]
    mixed = [sheets[2], sheets[0], sheets[1]]
    assert sorted(mixed) == sheets
    assert len(set(sheets)) == 3
