"""Dimensions multiply, and are said in words."""

from __future__ import annotations

import pytest

from workbook.measure.dimension import (
    AMOUNT,
    ENERGY,
    LENGTH,
    MASS,
    NUMBER,
    PERCENTAGE,
    TEMPERATURE,
    TIME,
    VOLUME,
    Dimension,
)


@pytest.mark.parametrize(
    ("dimension", "words"),
    [
        (MASS / VOLUME, "density"),
        (AMOUNT / VOLUME, "concentration"),
        (MASS / AMOUNT, "molar mass"),
        (MASS / MASS, "a number without a unit"),
        (ENERGY / VOLUME, "pressure"),
        (MASS * TEMPERATURE, "mass times temperature"),
        (MASS / TIME, "mass per time"),
        (NUMBER / TIME, "one per time"),
        (MASS / (TIME * TEMPERATURE), "mass per time per temperature"),
        (MASS**2, "mass squared"),
        (TIME**3, "time cubed"),
        (LENGTH**4, "length to the power 4"),
    ],
)
def test_a_dimension_is_said_in_a_students_words(
    dimension: Dimension, words: str
) -> None:
    assert dimension.words == words


def test_a_percentage_is_no_plain_number() -> None:
    assert PERCENTAGE != NUMBER
