"""What persons give by hand, kept in a file that several may write to."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from tests.marking.test_result import SHEET
from tests.support.marked import sort_marks
from workbook.errors import AuthorError, TaskError
from workbook.marking.override import (
    Override,
    add_override,
    find_idle,
    list_standing,
    read_overrides,
)

if TYPE_CHECKING:
    from pathlib import Path

AT = datetime(2026, 10, 12, 9, 30, tzinfo=UTC)
HEAD = "at,student,lab,step,points,reason,marker\n"


def make(
    points: str | None = "1.5", *, reason: str = "Clear.", step: str = "discussion"
) -> Override:
    return Override(
        at=AT,
        student="a1",
        lab="soap",
        step=step,
        points=None if points is None else Decimal(points),
        reason=reason,
        marker="R. Eddy",
    )


def find(path: Path, text: str) -> tuple[str, ...]:
    """Return the findings in a file, each without its folder."""
    path.write_text(text, encoding="utf-8")
    with pytest.raises(AuthorError) as caught:
        read_overrides(path)
    return tuple(each.removeprefix(f"{path}:") for each in caught.value.findings)


def test_where_nobody_decided_there_is_no_file(tmp_path: Path) -> None:
    assert read_overrides(tmp_path / "none.csv") == ()


@pytest.mark.parametrize(
    "reason",
    ["Clear.", "=cmd|' /C calc'!A0", "'tis clear", 'A "quoted", word', "Two\nlines"],
)
def test_a_decision_is_read_as_it_was_written(tmp_path: Path, reason: str) -> None:
    path = tmp_path / "o.csv"
    add_override(path, make(reason=reason))
    add_override(path, make(None))
    assert read_overrides(path) == (make(reason=reason), make(None))


def test_no_cell_of_the_file_is_a_formula(tmp_path: Path) -> None:
    add_override(tmp_path / "o.csv", make(reason="=1+1"))
    assert ",'=1+1," in (tmp_path / "o.csv").read_text(encoding="utf-8")


def test_the_last_decision_stands_and_can_be_withdrawn() -> None:
    later = make("2")
    assert dict(list_standing([make(), later])) == {later.place: later}
    assert dict(list_standing([make(), make(None)])) == {}


@pytest.mark.parametrize(
    ("override", "said"),
    [
        (make(reason=" "), "a reason is needed"),
        (make("-1"), "a number from 0"),
        (make("NaN"), "a number from 0"),
    ],
)
def test_what_could_not_be_read_again_is_not_written(
    tmp_path: Path, override: Override, said: str
) -> None:
    with pytest.raises(TaskError, match=said):
        add_override(tmp_path / "o.csv", override)
    assert not (tmp_path / "o.csv").exists()


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("yesterday,a1,soap,x,1,r,m", "2: 'yesterday' is no time"),
        ("2026-10-12T09:30,a1,soap,x,1,r,m", "2: the time has no time zone."),
        ("2026-10-12T09:30Z,a1,soap,x,one,r,m", "2: 'one' is no number of points"),
        ("2026-10-12T09:30Z,a1,soap,x,1,r", "2: 6 cells stand here, and 7"),
        ("2026-10-12T09:30Z,,soap,x,1,r,", "2: a student and a lab are needed; the"),
    ],
)
def test_a_mistake_is_told_with_its_line(tmp_path: Path, row: str, said: str) -> None:
    (found,) = find(tmp_path / "o.csv", f"{HEAD}{row}\n")
    assert found.startswith(said)


def test_a_file_of_other_columns_is_told(tmp_path: Path) -> None:
    assert find(tmp_path / "o.csv", "a,b\n")[0].startswith("1: the columns are at,")


def test_idle_and_generous_decisions_are_told() -> None:
    decided = [make("9"), make("1", step="gone")]
    assert find_idle(decided, sort_marks(SHEET)) == (
        "What R. Eddy gave for a1 / soap / discussion is 9, of 2 in all.",
        (
            "What R. Eddy gave for a1 / soap / gone found no such step or sheet among "
            "what was marked."
        ),
    )
