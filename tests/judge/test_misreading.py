"""A misreading is carried on; somebody else's value is not."""

from __future__ import annotations

import pytest

from workbook.judge.misreading import is_misreading
from workbook.labfile.instrument import find_instrument


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("cylinder, 25 mL", 12.9, 12.6),  # the rim of the meniscus
        ("cylinder, 25 mL", 13.6, 12.6),  # two divisions of 0.5 mL: the wrong line
        ("burette, 50 mL", 24.69, 24.31),  # 0.31 counted upwards from below 25
        ("burette, 50 mL", 25.69, 24.31),  # 0.69 counted on beyond 25
        ("balance, 0.01 g", 43.35, 43.53),  # two digits exchanged
        ("balance, 0.01 g", 43.58, 43.53),  # one digit mistyped
    ],
)
def test_a_misreading_is_known(name: str, typed: float, shown: float) -> None:
    assert is_misreading(find_instrument(name), typed, shown)


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("cylinder, 25 mL", 13.8, 12.6),  # more than two divisions away
        ("cylinder, 25 mL", 24.4, 12.6),  # a cylinder is not read downwards
        ("burette, 50 mL", 31.02, 24.31),
        ("balance, 0.01 g", 46.24, 43.53),  # three digits differ: another dish
        ("balance, 0.01 g", 34.53, 43.35),  # both pairs exchanged
        ("balance, 0.01 g", 4.35, 43.53),  # a digit is missing
    ],
)
def test_the_value_of_another_instrument_is_not(
    name: str, typed: float, shown: float
) -> None:
    assert not is_misreading(find_instrument(name), typed, shown)
