"""The same marks, whoever works them out."""

from __future__ import annotations

import sys
from concurrent.futures import Executor, Future
from concurrent.futures.process import BrokenProcessPool
from typing import TYPE_CHECKING, ParamSpec, TypeVar

import pytest
from typing_extensions import override

from tests.support.soap import answer_rightly, make_course, make_hand_in, name_sheet
from workbook.errors import TaskError
from workbook.marking import crew
from workbook.marking.crew import Crew, mark_batch, mark_by_crew, stamp_course
from workbook.marking.gather import Accepted
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

P = ParamSpec("P")
T = TypeVar("T")


@pytest.fixture
def course(tmp_path: Path) -> Path:
    return make_course(tmp_path)


class Dying(Executor):
    """Processes that end before they answer."""

    @override
    def submit(
        self, fn: Callable[P, T], /, *args: P.args, **kwargs: P.kwargs
    ) -> Future[T]:
        future: Future[T] = Future()
        future.set_exception(BrokenProcessPool())
        return future


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
    alone = list(mark_by_crew(CourseSource(course), accepted, (), Crew(1)))
    monkeypatch.setattr(crew, "_BATCH", 2)
    assert list(mark_by_crew(CourseSource(course), accepted, (), Crew(2))) == alone


@pytest.mark.service
@pytest.mark.filterwarnings("default")
def test_a_dask_cluster_gives_the_same_marks(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    distributed = pytest.importorskip("distributed")
    accepted = hand_in(course)
    alone = list(mark_by_crew(CourseSource(course), accepted, (), Crew(1)))
    monkeypatch.setattr(crew, "_BATCH", 2)
    cluster = distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=None
    )
    with cluster:
        address = cluster.scheduler_address
        found = list(
            mark_by_crew(CourseSource(course), accepted, (), Crew(cluster=address))
        )
    assert found == alone


def test_a_cluster_that_is_not_there_is_told(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(TaskError, match=r"needs the extra: pip install"):
        list(mark_by_crew(CourseSource(course), hand_in(course), (), Crew(cluster="x")))


def test_a_process_that_ends_is_told(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(crew, "_BATCH", 1)
    monkeypatch.setattr(crew, "ProcessPoolExecutor", lambda *_, **__: Dying())
    with pytest.raises(TaskError, match="A process ended before"):
        list(mark_by_crew(CourseSource(course), hand_in(course), (), Crew(2)))


def test_a_worker_with_another_course_marks_nothing(course: Path) -> None:
    with pytest.raises(TaskError, match="finds another course"):
        mark_batch(str(course), "00" * 32, hand_in(course), ())


def test_the_stamp_changes_with_everything_that_marks_rest_on(course: Path) -> None:
    stamps = [stamp_course(course)]
    for name in ("roster.csv", "course.toml"):
        path = course.with_name(name)
        path.write_text(path.read_text(encoding="utf-8") + "\n", encoding="utf-8")
        stamps.append(stamp_course(course))
    course.with_name("course.key").write_text("a5" * 32)
    stamps.append(stamp_course(course))
    assert len(set(stamps)) == 4


@pytest.mark.parametrize(
    ("asked", "number", "workers"),
    [(Crew(1), 1000, 1), (Crew(4), 1000, 4), (Crew(4), 160, 2), (Crew(), 10, 1)],
)
def test_no_process_is_started_for_nothing(
    asked: Crew, number: int, workers: int
) -> None:
    assert crew._count_workers(asked, number) == workers  # noqa: SLF001
