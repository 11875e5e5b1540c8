"""The bounds that a text runs into."""

from __future__ import annotations

import pytest

from workbook.errors import RelationError
from workbook.relation.cursor import DEPTH_LIMIT, LENGTH_LIMIT, NODE_LIMIT, Cursor
from workbook.relation.lexeme import Kind
from workbook.relation.reader import read_relation


def test_a_cursor_stays_at_the_end() -> None:
    cursor = Cursor("x", student=False)
    cursor.take()
    assert cursor.take().kind is cursor.take().kind is Kind.END


def test_a_cursor_sees_signs_only() -> None:
    cursor = Cursor("x + 1", student=False)
    assert not cursor.sees("x")
    cursor.take()
    assert cursor.sees("+")


def test_a_cursor_remembers_the_piece_before() -> None:
    cursor = Cursor("x + 1", student=False)
    assert cursor.before is None
    assert cursor.take() is cursor.before


def test_a_text_may_be_as_long_as_the_limit() -> None:
    read_relation("x" * LENGTH_LIMIT)
    with pytest.raises(RelationError, match="201 characters long and 200"):
        read_relation("x" * (LENGTH_LIMIT + 1))


def test_brackets_may_be_as_deep_as_the_limit() -> None:
    read_relation("(" * DEPTH_LIMIT + "x" + ")" * DEPTH_LIMIT)
    with pytest.raises(RelationError, match="more than 24 deep"):
        read_relation("(" * 25 + "x" + ")" * 25)


def test_depth_is_counted_within_and_not_along() -> None:
    read_relation("+".join(["(x)"] * (DEPTH_LIMIT + 1)))


# 60 names and the 59 signs between them are 119 nodes; a minus sign is one more.
def test_nodes_may_be_as_many_as_the_limit() -> None:
    assert NODE_LIMIT == 120
    read_relation("-" + "+".join("x" * 60))
    with pytest.raises(RelationError, match="more than 120"):
        read_relation("--" + "+".join("x" * 60))


def test_a_level_is_left_when_it_ends() -> None:
    cursor = Cursor("x", student=False)
    for _ in range(DEPTH_LIMIT + 1):
        with cursor.within(cursor.ahead):
            pass
    assert cursor.made(1) == 1
