"""Numbers in sentences are found, unless everybody may know them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.rehearsal.leak import find_numbers

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph


@pytest.mark.parametrize(
    ("sentence", "found"),
    [
        ("The value is 12.4 g.", ("12.4",)),
        ("Three times 0.911, or 3 times.", ("0.911", "3")),
        ("The density is upside down.", ()),
        ("Line 2 does not follow from the lines above it.", ()),
        ("Lines 2 and 885.45.", ("885.45",)),
        # The name of a substance of this lab, as the sheet prints it.
        ("That is the density of lye, 20.0 % sodium hydroxide.", ()),
        ("The 20.0 was not divided.", ("20.0",)),
    ],
)
def test_a_number_that_is_not_public_is_found(
    graph: Graph, sentence: str, found: tuple[str, ...]
) -> None:
    assert find_numbers(graph, sentence, "") == found


def test_what_a_student_typed_may_be_quoted(graph: Graph) -> None:
    assert find_numbers(graph, "13.6 and 14 are two.", "Typed(text='13.6 g')") == (
        "14",
    )
