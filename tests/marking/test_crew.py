"""The same marks, whoever works them out."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import pytest

from tests.support.soap import answer_rightly, make_course, make_hand_in, name_sheet
from workbook.errors import TaskError
from workbook.marking.crew import mark_batch, mark_by_crew
from workbook.marking.gather import Accepted
from workbook.solver.crew import Crew
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def course(tmp_path: Path) -> Path:
    return make_course(tmp_path)


def hand_in(course: Path) -> list[Accepted]:
    """Return hand-ins of three students, right, wrong in a step, and empty."""
    source = CourseSource(course)
    right = answer_rightly(source.case(name_sheet("a1")))
    given = {"a1": right, "b2": right, "c3": {}}
    return [Accepted(s, make_hand_in(source, s, a), "") for s, a in given.items()]


@pytest.mark.service
def test_processes_give_the_same_marks(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    accepted = hand_in(course)
    alone = list(mark_by_crew(CourseSource(course), accepted, 3, (), Crew(1)))
    monkeypatch.setattr("workbook.solver.crew.BATCH", 2)
    assert list(mark_by_crew(CourseSource(course), accepted, 3, (), Crew(2))) == alone


@pytest.mark.service
@pytest.mark.filterwarnings("default")
def test_a_dask_cluster_gives_the_same_marks(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    distributed = pytest.importorskip("distributed")
    accepted = hand_in(course)
    alone = list(mark_by_crew(CourseSource(course), accepted, 3, (), Crew(1)))
    monkeypatch.setattr("workbook.solver.crew.BATCH", 2)
    cluster = distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=None
    )
    with cluster:
        address = cluster.scheduler_address
        found = list(
            mark_by_crew(CourseSource(course), accepted, 3, (), Crew(cluster=address))
        )
    assert found == alone


def test_a_cluster_that_is_not_there_is_told(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(TaskError, match=r"needs the extra: pip install"):
        list(mark_by_crew(CourseSource(course), (), 3, (), Crew(cluster="x")))


def test_a_worker_with_another_course_marks_nothing(course: Path) -> None:
    with pytest.raises(TaskError, match="finds another course"):
        mark_batch(str(course), "00" * 32, hand_in(course), ())
