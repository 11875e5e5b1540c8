"""Showing an object that holds a widget."""

from __future__ import annotations

from ipywidgets import HTML, VBox

from workbook.errors import TaskError
from workbook.front.display import bundle, let_go, speak_plainly


def test_the_plain_text_is_ours_and_the_view_is_the_widget_s() -> None:
    widget = HTML("x")
    shown = bundle(widget, "a card")
    assert shown["text/plain"] == "a card"
    view = shown["application/vnd.jupyter.widget-view+json"]
    assert isinstance(view, dict)
    assert view["model_id"] == widget.model_id


def test_a_notebook_shows_the_sentence_and_no_traceback() -> None:
    error = speak_plainly(TaskError("There is no such step."))
    assert error._render_traceback_() == ["There is no such step."]  # type: ignore[attr-defined]  # set for IPython


def test_widgets_are_let_go_with_all_that_they_hold() -> None:
    inner, outer = HTML("within"), VBox()
    outer.children = (VBox([inner]),)
    let_go([outer])
    assert inner.comm is None
    assert outer.comm is None
