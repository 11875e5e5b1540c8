"""A line that multiplies letters over and over is not worked out at all."""

from __future__ import annotations

import pytest

from workbook.judge.steepness import is_steep
from workbook.relation.reader import read_line
from workbook.relation.tree import Equality


def steep(text: str) -> bool:
    line = read_line(text)
    assert isinstance(line, Equality)
    return is_steep(line)


@pytest.mark.parametrize(
    "text",
    [
        "soap = (oil - C3H5)/3 + Na",
        "3(soap - Na) = oil - C3H5",
        "soap/oil = ((oil - C3H5)/3 + Na)/oil",
        "x = 12^12 / 12^12",
        "x^3 = C^3",
        "1/x = 1/(soap - Na)",
        "-x = -(soap - Na)",
    ],
)
def test_algebra_of_masses_is_not_steep(text: str) -> None:
    assert not steep(text)


@pytest.mark.parametrize(
    "text",
    [
        "x = C^4",
        "x = (C + H)(C - H)(C + O)(C - O)",
        "x = 1/(C*H*O*Na)",
        "x = C^-4",
        # One letter below each line, but four below the common one.
        "1/(x + 1) + 1/(x + 2) = 1/(oil + 1) + 1/(oil + 2)",
    ],
)
def test_many_letters_multiplied_are_steep(text: str) -> None:
    assert steep(text)
