"""
A class that hands in its answers in the last seconds, and a service for long.

`tests.benchmarks.deadline` and `tests.benchmarks.soak` do the same for real classes; no
figure of time is held against anything here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.benchmarks.bare import serve_bare
from tests.benchmarks.soak import soak
from tests.support.load import make_crowd, make_pupils, make_small_lab
from tests.support.rush import rush, send_all
from tests.support.serving import serve
from tests.support.watch import look_at
from workbook.checker.database import CONNECTIONS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.support.load import Pupil
    from tests.support.serving import Service

pytestmark = pytest.mark.service

STUDENTS = 30


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("crowd")
    return make_crowd(folder, STUDENTS, make_small_lab(folder))


@pytest.fixture(scope="module")
def running(course: Path) -> Iterator[Service]:
    with serve(course, "--workers", "2") as service:
        yield service


@pytest.fixture(scope="module")
def pupils(course: Path) -> list[Pupil]:
    return make_pupils(course, STUDENTS, seed=3)


def test_every_attempt_of_the_last_seconds_is_judged(
    running: Service, pupils: list[Pupil]
) -> None:
    found = rush(running.address, pupils, tries=4, seconds=2)
    assert found.said == {"judged": 4 * STUDENTS}
    assert len(found.times_s) == 4 * STUDENTS


def test_open_files_do_not_grow_with_what_is_judged(
    running: Service, pupils: list[Pupil]
) -> None:
    soak(running, pupils, minutes=1 / 60, per_second=40)
    before = look_at(running.process.pid)
    said = soak(running, pupils, minutes=2 / 60, per_second=40)
    after = look_at(running.process.pid)
    assert said == {"judged": 80}
    assert after.files <= before.files + 2 * CONNECTIONS
    assert before.processes == after.processes > 1


def test_an_endpoint_that_only_writes_can_be_held_against_the_service(
    pupils: list[Pupil], tmp_path: Path
) -> None:
    with serve_bare(f"sqlite:///{tmp_path / 'bare.sqlite'}", 1, tmp_path) as address:
        found = send_all(address, pupils, 64)
    assert found.said == {"judged": 64}
