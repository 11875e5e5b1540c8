"""A pad keeps two accounts: what is true, and where the student's lines have led."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.graph.span import Span
from workbook.judge.pad import Pad
from workbook.judge.pieces import Pieces
from workbook.relation.tree import Equality

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


@pytest.fixture
def pad(graph: Graph) -> Pad:
    return Pad(Pieces(graph, "soap", Span.around(885.453, 0.162)))


def line(pad: Pad, text: str) -> Equality:
    read = pad.read(text, 1)
    assert isinstance(read, Equality), read
    return read


def holds(pad: Pad, text: str) -> bool:
    return pad.holds(line(pad, text))


def test_a_sentence_says_which_line_it_means(pad: Pad) -> None:
    assert pad.read("y = 2", 7) == "Line 7 uses 'y', which is no letter of this pad."


def test_letters_are_checked_exactly(pad: Pad) -> None:
    """A third of a hydrogen is 0.336: far within any tolerance of 885."""
    assert holds(pad, "3x = oil - C3H5")
    assert not holds(pad, "3x = oil - C3H4")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # 281.460 within half of the last digit, and 2 in 10 000 for another table.
        ("x = 281.46", True),
        ("x = 281.5", True),
        ("x = 281", True),
        ("x = 283", False),
        ("x = 281.12", False),
        ("x = 2.81e2", True),
        # Small whole numbers count atoms, and are exact.
        ("x = 3", False),
    ],
)
def test_numbers_are_checked_within_their_rounding(
    pad: Pad, text: str, *, expected: bool
) -> None:
    assert holds(pad, text) is expected


def test_a_line_that_moves_a_letter_moves_what_rests_on_it(pad: Pad) -> None:
    pad.move(line(pad, "x = 300.00"))
    assert holds(pad, "x = 300.00")
    assert holds(pad, "soap = 322.99")
    assert holds(pad, "soap = 304.45"), "the truth never stops being true"


def test_a_letter_is_found_wherever_it_stands(pad: Pad) -> None:
    """885.45 = 3x + 50.00 puts x at 278.48."""
    pad.move(line(pad, "885.45 = 3x + 50.00"))
    assert holds(pad, "x = 278.48")


@pytest.mark.parametrize("text", ["3 = 4", "oil = 900.0", "x^2 = -1", "x/x = 2"])
def test_a_line_that_settles_no_letter_moves_none(pad: Pad, text: str) -> None:
    pad.move(line(pad, text))
    assert not holds(pad, "x = 283")
    assert holds(pad, "x = 281.46")


def test_a_rounded_value_is_gone_on_from(pad: Pad) -> None:
    assert not holds(pad, "soap = 303.99")
    pad.keep(line(pad, "x = 281"))
    assert holds(pad, "soap = 303.99")


def test_what_overflows_does_not_hold(pad: Pad) -> None:
    assert not holds(pad, "x = " + "9" * 30 + "^12 * " + "9" * 30 + "^12")
