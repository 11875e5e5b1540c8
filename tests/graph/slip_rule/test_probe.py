"""Students to try relations with."""

from __future__ import annotations

import math

import pytest

from tests.support.slip import build
from workbook.graph.slip_rule.probe import probe


def test_every_quantity_of_every_student_has_a_value() -> None:
    for values in probe(build()):
        assert values.keys() == build().quantities.keys()
        assert all(map(math.isfinite, values.values()))


def test_what_is_drawn_lies_in_its_range() -> None:
    assert all(20.0 <= values["oil_volume"] <= 30.0 for values in probe(build()))


def test_two_drawn_quantities_do_not_move_together() -> None:
    shares = {
        round((v["oil_volume"] - 20) / 10 - (v["dish"] - 30) / 20, 3)
        for v in probe(build())
    }
    assert len(shares) > 1 or shares != {0.0}


def test_what_follows_is_worked_out() -> None:
    for values in probe(build()):
        assert values["oil_mass"] == pytest.approx(values["oil_volume"] * 0.915)
