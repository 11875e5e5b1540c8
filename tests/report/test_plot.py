"""Plots as SVG: whole, in the page's colours, and said in words."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from workbook.report.fact import Standing
from workbook.report.plot import plot_steps, plot_yields
from workbook.report.tally import StepTally

SVG = "{http://www.w3.org/2000/svg}"
EXPECTED = (60.0, 95.0)


@pytest.fixture(scope="module")
def plot() -> str:
    return plot_yields([62.0, 81.0, 82.0, 97.0, 3e9], EXPECTED, "percent <yield>")


def texts(svg: str) -> list[str]:
    """Return the texts of a plot."""
    tree = ET.fromstring(svg)  # noqa: S314  our own
    return ["".join(each.itertext()).strip() for each in tree.iter(f"{SVG}text")]


def test_a_plot_is_an_image_with_a_name(plot: str) -> None:
    tree = ET.fromstring(plot)  # noqa: S314  our own
    assert tree.get("role") == "img"
    # One of the five lies beyond the plot.
    assert tree.get("aria-label", "").startswith(
        "A bar chart of the percent <yield> of 4 students."
    )


def test_the_axes_say_what_they_show(plot: str) -> None:
    assert "students" in texts(plot)
    assert any(text.startswith("percent <yield> / %") for text in texts(plot))


def test_a_plot_takes_every_colour_from_its_page(plot: str) -> None:
    assert "var(--ink-settled)" in plot
    assert re.findall(r"#[0-9a-fA-F]{6}", plot) == []


def test_no_style_of_a_plot_reaches_out_of_it(plot: str) -> None:
    assert "<style" not in plot


def test_the_same_class_gives_the_same_plot(plot: str) -> None:
    again = plot_yields([62.0, 81.0, 82.0, 97.0, 3e9], EXPECTED, "percent <yield>")
    assert plot == again


def test_an_empty_class_has_a_plot() -> None:
    assert "of 0 students" in plot_yields([], EXPECTED, "percent yield")


def test_parts_of_a_bar_are_told_apart_by_more_than_colour() -> None:
    counts = {Standing.RIGHT: 3, Standing.FOLLOWED: 2, Standing.BLANK: 1}
    tally = StepTally(step="a", asks="What?", counts=counts, attempts=1, minutes=None)
    svg = plot_steps([tally])
    assert "<pattern" in svg
    assert [word.value for word in Standing if word.value not in texts(svg)] == []
