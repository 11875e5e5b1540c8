"""Rules on ranges: their ends are read before, on scales of one kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import find_mistakes, make_lab
from tests.support.melting import MELTING
from workbook.labfile.form import RangeForm

if TYPE_CHECKING:
    from pathlib import Path


def test_a_range_shows_its_unit_and_knows_its_ends(tmp_path: Path) -> None:
    asks = make_lab(tmp_path, MELTING).public.postlab
    ask = next(each for each in asks if each.id == "melting")
    assert (ask.kind, ask.of) == ("range", None)
    assert ask.form == RangeForm(("first", "last"), "°C")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('of = ["first", "last"]', 'of = ["frist", "last"]', "Did you mean 'first'?"),
        ('of = ["first", "last"]', 'of = ["first", "residue"]', "is not read before"),
        ('kind = "reading"\nof = "last"', 'kind = "text"\nname = "n"', "is not read"),
        (
            'instrument = "thermometer, 250 °C"\ndraw = "133.1 .. 135.9 °C"',
            'instrument = "balance, 0.01 g"\ndraw = "133.10 .. 135.90 g"',
            "a range has one unit",
        ),
    ],
)
def test_a_range_without_its_ends_is_found(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    found = find_mistakes(tmp_path, (old, new), lab=MELTING)
    assert any(said in each.sentence for each in found), found


def test_a_range_has_two_ends(tmp_path: Path) -> None:
    once = ('of = ["first", "last"]', 'of = ["first"]')
    (found,) = find_mistakes(tmp_path, once, lab=MELTING)
    assert "one of at least 2 is expected" in found.sentence
