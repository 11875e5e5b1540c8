"""The same files from one core, from two, and from a cluster: marks, pages, reports."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.command import run, snapshot
from tests.support.soap import make_course
from workbook.solver import crew

if TYPE_CHECKING:
    from pathlib import Path


def mark(folder: Path, course: Path, *how: object) -> dict[str, bytes]:
    """Mark, and return every file that was written."""
    result = run("mark", course, "--handins", "in", "--to", folder, *how)
    assert result.exit_code in {0, 1}, result.output
    return snapshot(folder)


@pytest.mark.service
@pytest.mark.filterwarnings("default")
def test_every_file_is_the_same_whoever_marks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    distributed = pytest.importorskip("distributed")
    monkeypatch.chdir(tmp_path)
    # So that three hand-ins are worth a second process.
    monkeypatch.setattr(crew, "_WORTH_A_PROCESS", 1)
    course = make_course(tmp_path)
    run("pretend", course, "--to", "in")
    alone = mark(tmp_path / "one", course, "--cores", 1)
    assert {"marks.csv", "steps.csv", "class.html", "signals.csv"} <= alone.keys()
    assert mark(tmp_path / "two", course, "--cores", 2) == alone
    cluster = distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, dashboard_address=None
    )
    with cluster:
        address = cluster.scheduler_address
        assert mark(tmp_path / "many", course, "--cluster", address) == alone
