"""Work on a course by many hands: in order, no more out than is wanted, and told."""

from __future__ import annotations

from concurrent.futures import Executor, Future
from concurrent.futures.process import BrokenProcessPool
from typing import TYPE_CHECKING, ParamSpec, TypeVar

import pytest
from typing_extensions import override

from tests.support.soap import LAB, STUDENTS, make_course
from workbook.errors import TaskError
from workbook.solver import crew
from workbook.solver.crew import (
    Crew,
    cases_in_turn,
    count_workers,
    cut,
    read_stamped,
    stamp_course,
    work_in_batches,
)
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
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


class Here(Executor):
    """No process at all."""

    @override
    def submit(
        self, fn: Callable[P, T], /, *args: P.args, **kwargs: P.kwargs
    ) -> Future[T]:
        future: Future[T] = Future()
        future.set_result(fn(*args, **kwargs))
        return future


def double(number: int) -> list[int]:
    return [number, number]


def test_results_come_in_the_order_of_the_batches(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(crew, "ProcessPoolExecutor", lambda *_, **__: Here())
    found = work_in_batches(Crew(2), 2, double, ((n,) for n in range(20)))
    assert list(found) == [number for n in range(20) for number in (n, n)]


def test_batches_are_taken_only_when_somebody_can_work_on_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(crew, "ProcessPoolExecutor", lambda *_, **__: Here())
    monkeypatch.setattr(crew, "_AHEAD", 2)
    taken = []

    def give() -> Iterator[tuple[int]]:
        for number in range(20):
            taken.append(number)
            yield (number,)

    for workers in (1, 2, 8):
        taken.clear()
        assert next(work_in_batches(Crew(workers), workers, double, give())) == 0
        assert taken == list(range(2 * workers))


def test_a_process_that_ends_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(crew, "ProcessPoolExecutor", lambda *_, **__: Dying())
    with pytest.raises(TaskError, match="A process ended before"):
        list(work_in_batches(Crew(2), 2, double, [(1,)]))


def test_a_worker_with_another_course_does_nothing(course: Path) -> None:
    assert read_stamped(str(course), stamp_course(course)).name
    with pytest.raises(TaskError, match="finds another course"):
        read_stamped(str(course), "00" * 32)


def test_things_are_cut_into_batches_as_they_are_asked_for(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(crew, "BATCH", 2)
    things = iter(range(5))
    batches = cut(things)
    assert next(batches) == [0, 1]
    assert next(things) == 2
    assert list(batches) == [[3, 4]]
    assert list(cut(())) == []


def test_cases_drawn_in_turn_are_those_drawn_at_once(
    course: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = CourseSource(course)
    at_once = source.cases(LAB, STUDENTS)
    monkeypatch.setattr(crew, "BATCH", 2)
    assert [c.values for c in cases_in_turn(source, LAB, STUDENTS)] == [
        case.values for case in at_once
    ]


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
    assert count_workers(asked, number) == workers
