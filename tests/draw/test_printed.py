"""An answer that is the same for everybody stands in no text."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit, make_graph
from workbook.draw.printed import find_printed

if TYPE_CHECKING:
    from pathlib import Path

ASKS = 'asks = "Where does the gas go?"'
OPTION = 'room = "Into the room"'


def told(folder: Path, old: str, new: str) -> list[tuple[object, ...]]:
    """Return where a text of the chalk lab tells an answer."""
    graph = make_graph(folder, edit(CHALK, (old, new)))
    return [place for place, _ in find_printed(graph)]


# Ca 40.078, Cl 35.45, CIAAW 2021 abridged: 110.978 g/mol, asked by algebra.
@pytest.mark.parametrize("number", ["110.98", "111.0", "111", "110.978"])
def test_a_molar_mass_in_a_question_is_found(tmp_path: Path, number: str) -> None:
    new = f'asks = "Calcium chloride has {number} g/mol. Where does the gas go?"'
    assert told(tmp_path, ASKS, new) == [("prelab", 0, "asks")]


def test_a_molar_mass_in_an_option_is_found(tmp_path: Path) -> None:
    new = 'room = "Into 111.0 rooms"'
    assert told(tmp_path, OPTION, new) == [("prelab", 0, "options", "room")]


@pytest.mark.parametrize("number", ["112", "1110", "11", "H111", "0.111"])
def test_another_number_is_none_of_them(tmp_path: Path, number: str) -> None:
    assert told(tmp_path, ASKS, f'asks = "Where does {number} go?"') == []


def test_an_answer_that_each_student_has_of_their_own_is_in_no_text(
    tmp_path: Path,
) -> None:
    # Every number of three figures that a yield could be.
    numbers = " ".join(f"{each / 100:.2f}" for each in range(150, 300, 7))
    assert told(tmp_path, ASKS, f'asks = "{numbers}?"') == []
