"""
Marks that several persons give to the same few texts, before the marking begins.

They count for nothing. They are kept as lines of a CSV file beside the course file, so
that each marker works at a desk of their own.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from statistics import mean, pstdev
from typing import TYPE_CHECKING

from workbook.desk.agreement import find_agreement
from workbook.errors import TaskError
from workbook.marking.printable import from_cell, to_cell
from workbook.marking.wording import say_points
from workbook.store import append_line

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from workbook.desk.work import Paper, Question

#: Lies beside the course file.
CALIBRATION_FILE = "course.calibration.csv"

#: So many texts are marked by everybody; common practice, no source [-].
COUNT = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What one marker gave one text."""

    lab: str
    step: str
    student: str
    marker: str
    points: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """How the markers of a question compare."""

    #: Each marker with the number of texts, the mean and the spread [-, point, point].
    markers: tuple[tuple[str, int, float, float], ...]
    #: What each text was given, by marker, in the order of the texts.
    rows: tuple[dict[str, Decimal], ...]
    #: Krippendorff's alpha; None where the marks can't tell [-].
    agreement: float | None


def add_trial(path: Path, trial: Trial) -> None:
    """
    Keep what a marker gave.

    Parameters
    ----------
    path : Path
        The file; it is made when it does not exist.
    trial : Trial
        The mark.

    Raises
    ------
    TaskError
        If the marker has no name, or the disk refuses.
    """
    if not trial.marker.strip():
        msg = "Write your name first: marks are compared by their markers."
        raise TaskError(msg)
    text = io.StringIO(newline="")
    marker = to_cell(" ".join(trial.marker.split()))
    cells = (trial.lab, trial.step, trial.student, marker, say_points(trial.points))
    csv.writer(text, lineterminator="").writerow(cells)
    try:
        append_line(path, text.getvalue().encode(), is_forced=True)
    except OSError as error:
        msg = f"{path} can't be written: {error.strerror}."
        raise TaskError(msg) from error


def read_trials(path: Path) -> list[Trial]:
    """
    Return what markers gave, the last of each where one marked a text twice.

    Parameters
    ----------
    path : Path
        What `add_trial` wrote; it need not be there.

    Returns
    -------
    list of Trial
        In the order of first marking.

    Raises
    ------
    TaskError
        If a line of it is none of ours.
    """
    if not path.exists():
        return []
    found: dict[tuple[str, ...], Trial] = {}
    reader = csv.reader(io.StringIO(path.read_text(encoding="utf-8"), newline=""))
    for number, cells in enumerate(reader, start=1):
        try:
            lab, step, student, marker, points = cells
            trial = Trial(
                lab=lab,
                step=step,
                student=student,
                marker=from_cell(marker),
                points=Decimal(points),
            )
        except (ValueError, InvalidOperation) as error:
            msg = f"{path}:{number}: this is no mark of a calibration: {cells!r}."
            raise TaskError(msg) from error
        found[lab, step, student, marker] = trial
    return list(found.values())


def compare_markers(
    question: Question, papers: Iterable[Paper], trials: Iterable[Trial]
) -> Comparison:
    """
    Return how the markers of a question compare.

    Parameters
    ----------
    question : Question
        The step.
    papers : iterable of Paper
        The texts that everybody marks.
    trials : iterable of Trial
        What `read_trials` gave.

    Returns
    -------
    Comparison
        Of those texts alone.
    """
    rows: dict[str, dict[str, Decimal]] = {paper.student: {} for paper in papers}
    place = question.lab, question.step
    for trial in trials:
        if (trial.lab, trial.step) == place and trial.student in rows:
            rows[trial.student][trial.marker] = trial.points
    names = dict.fromkeys(name for row in rows.values() for name in row)
    given = {
        name: [float(row[name]) for row in rows.values() if name in row]
        for name in names
    }
    return Comparison(
        markers=tuple((n, len(p), mean(p), pstdev(p)) for n, p in given.items()),
        rows=tuple(rows.values()),
        agreement=find_agreement(
            [[float(points) for points in row.values()] for row in rows.values()]
        ),
    )
