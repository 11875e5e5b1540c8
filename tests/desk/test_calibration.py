"""Marks of several persons on the same texts, compared."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from workbook.desk.calibration import (
    CALIBRATION_FILE,
    Trial,
    add_trial,
    compare_markers,
    read_trials,
)
from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.desk.work import Question, Work


def make_trial(question: Question, student: str, marker: str, points: str) -> Trial:
    return Trial(
        lab=question.lab,
        step=question.step,
        student=student,
        marker=marker,
        points=Decimal(points),
    )


def test_what_was_given_comes_back(work: Work) -> None:
    path = work.folder / CALIBRATION_FILE
    trial = make_trial(work.questions()[0], "a1", "=R. Eddy, jr", "1.5")
    add_trial(path, trial)
    assert read_trials(path) == [trial]
    assert b"'=R. Eddy" in path.read_bytes()


def test_who_marks_a_text_again_changes_the_mark(work: Work) -> None:
    path = work.folder / CALIBRATION_FILE
    for points in ("0", "2"):
        add_trial(path, make_trial(work.questions()[0], "a1", "Eddy", points))
    assert [trial.points for trial in read_trials(path)] == [Decimal(2)]


def test_a_marker_without_a_name_is_refused(work: Work) -> None:
    trial = make_trial(work.questions()[0], "a1", " ", "1")
    with pytest.raises(TaskError, match="Write your name first"):
        add_trial(work.folder / CALIBRATION_FILE, trial)


def test_markers_are_compared_text_by_text(work: Work) -> None:
    question = work.questions()[0]
    trials = [
        make_trial(question, "a1", "Eddy", "2"),
        make_trial(question, "b2", "Eddy", "1"),
        make_trial(question, "a1", "Fay", "1"),
        make_trial(question, "zz", "Fay", "0"),
    ]
    found = compare_markers(question, work.papers(question), trials)
    assert set(found.markers) == {("Eddy", 2, 1.5, 0.5), ("Fay", 1, 1.0, 0.0)}
    assert sorted(map(len, found.rows)) == [1, 2]
    # One text with two marks, 2 and 1: no better than chance.
    assert found.agreement == pytest.approx(0)


def test_a_line_that_is_no_mark_is_told(tmp_path: Path) -> None:
    path = tmp_path / CALIBRATION_FILE
    path.write_text("soap,text,a1,Eddy\n", encoding="utf-8")
    with pytest.raises(TaskError, match="csv:1: this is no mark"):
        read_trials(path)
