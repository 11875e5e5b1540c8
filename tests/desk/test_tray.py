"""Piles of texts: one that counts, and one for comparing markers."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.desk.calibration import Comparison
from workbook.desk.tray import MarkingTray, TrialTray, show_comparison
from workbook.marking.override import OVERRIDES_FILE

if TYPE_CHECKING:
    from workbook.desk.work import Work


def test_a_marked_text_leaves_the_pile_for_everybody(work: Work) -> None:
    tray, question = MarkingTray(work), work.questions()[0]
    first, second = tray.papers(question, "Eddy")
    tray.keep(question, first, Decimal(1), ("Some.", "Eddy"))
    assert tray.papers(question, "Fay") == [second]
    assert "1 of 2 texts are marked." in tray.tell(question)


def test_a_common_text_leaves_the_pile_of_one_marker_alone(work: Work) -> None:
    tray, question = TrialTray(work), work.questions()[0]
    first, second = tray.papers(question, "Eddy")
    tray.keep(question, first, Decimal(1), ("", "Eddy"))
    assert tray.papers(question, "Eddy") == [second]
    assert tray.papers(question, "Fay") == [first, second]


def test_a_common_text_decides_nothing(work: Work) -> None:
    tray, question = TrialTray(work), work.questions()[0]
    tray.keep(question, tray.papers(question, "Eddy")[0], Decimal(1), ("", "Eddy"))
    assert not (work.folder / OVERRIDES_FILE).exists()


def test_two_markers_are_compared(work: Work) -> None:
    tray, question = TrialTray(work), work.questions()[0]
    for marker, points in (("Eddy", "1"), ("Fay", "2")):
        for paper in tray.papers(question, marker):
            tray.keep(question, paper, Decimal(points), ("", marker))
    told = tray.tell(question)
    assert "<td>2</td>" in told
    assert "Krippendorff" in told


def test_names_of_markers_are_escaped() -> None:
    shown = show_comparison(
        Comparison(
            markers=(("<b>Eddy", 1, 1.0, 0.0),),
            rows=({"<b>Eddy": Decimal(1)},),
            agreement=None,
        )
    )
    assert "&lt;b&gt;Eddy" in shown
    assert "<b>Eddy" not in shown
