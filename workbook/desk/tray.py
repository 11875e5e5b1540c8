"""Where texts to be marked come from, and where the marks go."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Protocol

from typing_extensions import override

from workbook.desk.calibration import (
    CALIBRATION_FILE,
    COUNT,
    Trial,
    add_trial,
    compare_markers,
    read_trials,
)
from workbook.front.table import show_table
from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from decimal import Decimal

    from workbook.desk.calibration import Comparison
    from workbook.desk.work import Paper, Question, Work


class Tray(Protocol):
    """A pile of texts."""

    def papers(self, question: Question, marker: str) -> list[Paper]:
        """
        Return the texts that are still to be marked by this marker.

        Parameters
        ----------
        question : Question
            What was asked.
        marker : str
            The marker's name.

        Returns
        -------
        list of Paper
            In the order in which they are shown.
        """

    def keep(
        self, question: Question, paper: Paper, points: Decimal, said: tuple[str, str]
    ) -> None:
        """
        Keep the points.

        Parameters
        ----------
        question : Question
            What was asked.
        paper : Paper
            The text that they are given for.
        points : Decimal
            At most those of the question [point].
        said : tuple of str
            The reason, and the marker's name.
        """

    def tell(self, question: Question) -> str:
        """
        Return what the marks so far come to.

        Parameters
        ----------
        question : Question
            What was asked.

        Returns
        -------
        str
            HTML; names are escaped.
        """


class MarkingTray(Tray):
    """
    Texts that count: what is given is a decision, kept through every marking.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    """

    def __init__(self, work: Work) -> None:
        self._work = work

    @override
    def papers(self, question: Question, marker: str) -> list[Paper]:
        del marker
        return self._work.waiting(question)

    @override
    def keep(
        self, question: Question, paper: Paper, points: Decimal, said: tuple[str, str]
    ) -> None:
        self._work.decide(question, paper, points, said)

    @override
    def tell(self, question: Question) -> str:
        every, open_ = self._work.papers(question), self._work.waiting(question)
        return f"<p>{len(every) - len(open_)} of {len(every)} texts are marked.</p>"


class TrialTray(Tray):
    """
    The same few texts for every marker; nothing that is given counts.

    Parameters
    ----------
    work : Work
        What lies on the desk.
    """

    def __init__(self, work: Work) -> None:
        self._work = work
        self._path = work.folder / CALIBRATION_FILE

    @override
    def papers(self, question: Question, marker: str) -> list[Paper]:
        done = {
            trial.student
            for trial in read_trials(self._path)
            if (trial.lab, trial.step, trial.marker)
            == (question.lab, question.step, " ".join(marker.split()))
        }
        return [p for p in self._common(question) if p.student not in done]

    @override
    def keep(
        self, question: Question, paper: Paper, points: Decimal, said: tuple[str, str]
    ) -> None:
        trial = Trial(
            lab=question.lab,
            step=question.step,
            student=paper.student,
            marker=said[1],
            points=points,
        )
        add_trial(self._path, trial)

    @override
    def tell(self, question: Question) -> str:
        trials = read_trials(self._path)
        return show_comparison(
            compare_markers(question, self._common(question), trials)
        )

    def _common(self, question: Question) -> list[Paper]:
        return self._work.papers(question)[:COUNT]


def show_comparison(comparison: Comparison) -> str:
    """
    Return HTML of how markers compare.

    Parameters
    ----------
    comparison : Comparison
        Of one question.

    Returns
    -------
    str
        Tables, and the agreement in a sentence; names are escaped.
    """
    names = [name for name, *_ in comparison.markers]
    rows = (
        (f"{number}", *(_say(row.get(name)) for name in names))
        for number, row in enumerate(comparison.rows, start=1)
    )
    sums = (
        (escape(name), f"{count}", f"{middle:.2f}", f"{spread:.2f}")
        for name, count, middle, spread in comparison.markers
    )
    return (
        show_table(("Text", *map(escape, names)), rows if names else ())
        + show_table(("Marker", "Texts", "Mean", "Spread"), sums)
        + f"<p>{_say_agreement(comparison)}</p>"
    )


def _say(points: Decimal | None) -> str:
    return "–" if points is None else say_points(points)


def _say_agreement(comparison: Comparison) -> str:
    if comparison.agreement is None:
        return (
            "Agreement can't be told yet: it needs two markers on the same texts, and "
            "marks that are not all alike."
        )
    return (
        f"Agreement: {comparison.agreement:.2f} (Krippendorff's alpha for intervals: 1 "
        f"where all agree, 0 where chance would do as well). Talk about the texts on "
        f"which the marks differ most before you begin."
    )
