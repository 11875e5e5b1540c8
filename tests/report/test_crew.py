"""The same pages, whoever prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.command import snapshot
from workbook.errors import TaskError
from workbook.marking.record import RECORD_FILE, MarkRecord, write_record
from workbook.report import crew
from workbook.report.crew import hand_back_batch, hand_back_by_crew
from workbook.solver.crew import Crew, stamp_course

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark
    from workbook.report.fact import Fact
    from workbook.solver.source import CourseSource


@pytest.fixture
def record(tmp_path: Path, marks: list[SheetMark]) -> MarkRecord:
    return write_record(tmp_path / RECORD_FILE, marks)


def is_same(one: Fact, other: Fact) -> bool:
    """Tell whether two facts say the same, to the last bit."""
    names = ("student", "lab", "points", "ripe", "handed_in", "slips", "features")
    is_named_so = all(getattr(one, name) == getattr(other, name) for name in names)
    return is_named_so and one.steps.tobytes() == other.steps.tobytes()


def print_all(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    record: MarkRecord,
    by: Crew,
) -> tuple[list[Fact], dict[str, bytes]]:
    """Hand back into a folder, and return what came of it."""
    folder.mkdir()
    facts = list(hand_back_by_crew(folder, source, roster, record, by))
    return facts, snapshot(folder)


@pytest.mark.service
def test_processes_print_the_same_pages(
    tmp_path: Path,
    source: CourseSource,
    roster: tuple[Student, ...],
    record: MarkRecord,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("workbook.solver.crew.BATCH", 1)
    monkeypatch.setattr(crew, "count_workers", lambda by, _: by.cores)
    alone, pages = print_all(tmp_path / "one", source, roster, record, Crew(1))
    facts, found = print_all(tmp_path / "two", source, roster, record, Crew(2))
    assert sorted(pages) == [
        "pages/a1/olive-oil-soap.html",
        "pages/b2/olive-oil-soap.html",
    ]
    assert found == pages
    assert all(map(is_same, facts, alone))
    assert len(facts) == len(alone)


@pytest.mark.service
@pytest.mark.filterwarnings("default")
def test_a_dask_cluster_prints_the_same_pages(
    tmp_path: Path,
    source: CourseSource,
    roster: tuple[Student, ...],
    record: MarkRecord,
) -> None:
    distributed = pytest.importorskip("distributed")
    _, pages = print_all(tmp_path / "one", source, roster, record, Crew(1))
    cluster = distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=None
    )
    with cluster:
        by = Crew(cluster=cluster.scheduler_address)
        _, found = print_all(tmp_path / "two", source, roster, record, by)
    assert found == pages


def test_whoever_does_not_find_the_folder_gives_the_pages_back(
    tmp_path: Path,
    source: CourseSource,
    roster: tuple[Student, ...],
    record: MarkRecord,
) -> None:
    _, pages = print_all(tmp_path / "one", source, roster, record, Crew(1))
    path = source.course.path
    course, away = (str(path), stamp_course(path)), str(tmp_path / "away")
    found = hand_back_batch(*course, away, roster, list(record.walk()))
    assert [page for _, page in found] == list(pages.values())
    assert not (tmp_path / "away").exists()


def test_a_worker_with_another_course_prints_nothing(
    tmp_path: Path, source: CourseSource, roster: tuple[Student, ...]
) -> None:
    with pytest.raises(TaskError, match="finds another course"):
        hand_back_batch(str(source.course.path), "00" * 32, str(tmp_path), roster, [])
