"""
Services and databases that are killed under load keep what they acknowledged, once.

`tests.benchmarks.kills` does the same some hundreds of times.
"""

from __future__ import annotations

import pytest

from tests.support.fortress import build
from tests.support.load import make_pupils
from tests.support.siege import besiege, find_losses

pytestmark = pytest.mark.service

STUDENTS, KILLS, SEED = 12, 3, 7


@pytest.mark.parametrize("kind", ["sqlite", "replicas"])
def test_no_acknowledged_attempt_is_lost_and_none_counts_twice(kind: str) -> None:
    with build(kind, STUDENTS) as fortress:
        pupils = make_pupils(fortress.course, STUDENTS, SEED)
        siege = besiege(fortress.addresses, fortress.victims, pupils, KILLS, SEED)
        found = find_losses(siege, fortress.database)
    assert siege.faults == []
    kept = found.pop("acknowledged attempts")
    assert found.pop("recorded attempts") == kept > KILLS
    assert not any(found.values()), found
