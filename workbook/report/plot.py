"""
Plots as SVG that stands in a page: in its colours, by day and by night.

Every plot has its figures beside it in words or in a table; a screen reader is told
what it shows, and where the figures stand.
"""

from __future__ import annotations

import io
import re
from html import escape
from typing import TYPE_CHECKING, Any

from matplotlib import rc_context
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from workbook.report.fact import Standing

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from matplotlib.axes import Axes

    from workbook.report.tally import StepTally

#: Colours that a page replaces by its own, by the name of its variable.
_COLOURS = {
    "#010101": "var(--text)",
    "#010102": "var(--ink-plain)",
    "#010103": "var(--ink-settled)",
    "#010104": "var(--ink-again)",
    "#010105": "var(--ink-open)",
    "#010106": "var(--wash)",
    "#010107": "var(--paper)",
}
_TEXT, _PLAIN, _SETTLED, _AGAIN, _OPEN, _WASH, _PAPER = _COLOURS

#: Face, and hatching: nothing is told by colour alone.
_BARS = {
    Standing.RIGHT: (_SETTLED, ""),
    Standing.FOLLOWED: (_PAPER, "////"),
    Standing.SLIPPED: (_AGAIN, ""),
    Standing.WRONG: (_OPEN, ""),
    Standing.WRITTEN: (_PAPER, "...."),
    Standing.BLANK: (_PAPER, ""),
}

_SETTINGS: dict[Any, Any] = {
    "svg.fonttype": "none",
    "font.family": "serif",
    "font.size": 10,
    "text.color": _TEXT,
    "axes.edgecolor": _PLAIN,
    "axes.labelcolor": _TEXT,
    "xtick.color": _TEXT,
    "ytick.color": _TEXT,
    "hatch.color": _SETTLED,
    "hatch.linewidth": 1.0,
}

_WIDTH_IN = 7.6

#: Width of a class of yields in a plot and in its table [%].
YIELD_STEP = 5

#: Up to where a plot of yields goes at least [%].
_HIGHEST = 120


def plot_yields(
    values: Sequence[float], expected: tuple[float, float], label: str
) -> str:
    """
    Return a plot of the yields of a class beside the range that the lab expects.

    Parameters
    ----------
    values : sequence of float
        What was answered [%].
    expected : (float, float)
        Both ends of the range [%].
    label : str
        What the values are called.

    Returns
    -------
    str
        SVG; a bar for each class of `YIELD_STEP` percent.
    """
    edges = list_edges(expected)
    inside = [value for value in values if edges[0] <= value < edges[-1]]
    with rc_context({**_SETTINGS, "svg.hashsalt": label}):
        figure, axes = _lay(2.9)
        axes.axvspan(*expected, facecolor=_WASH, edgecolor=_PLAIN, linestyle=":")
        axes.hist(inside, bins=edges, color=_SETTLED, edgecolor=_PAPER, zorder=2)
        axes.set_xlim(edges[0], edges[-1])
        axes.set_xlabel(f"{label} / %; the range that the lab expects is shaded")
        axes.set_ylabel("students")
        axes.yaxis.set_major_locator(MaxNLocator(integer=True))
        said = (
            f"A bar chart of the {label} of {len(inside)} students. The figures follow."
        )
        return _encode(figure, said)


def list_edges(expected: tuple[float, float]) -> list[int]:
    """
    Return the edges of the classes into which yields are sorted.

    Parameters
    ----------
    expected : (float, float)
        Both ends of the range that the lab expects [%].

    Returns
    -------
    list of int
        Multiples of `YIELD_STEP` from nothing to well above the whole: what somebody
        typed may lie anywhere, and is told in words when it lies beyond [%].

    Examples
    --------
    >>> edges = list_edges((60, 95))
    >>> edges[0], edges[-1]
    (0, 120)
    """
    low = min(0, int(expected[0] // YIELD_STEP) * YIELD_STEP)
    high = max(_HIGHEST, (int(expected[1] // YIELD_STEP) + 1) * YIELD_STEP)
    return list(range(low, high + 1, YIELD_STEP))


def plot_steps(tallies: Sequence[StepTally]) -> str:
    """
    Return a plot of what became of each step.

    Parameters
    ----------
    tallies : sequence of StepTally
        From top to bottom.

    Returns
    -------
    str
        SVG; a bar for each step, its parts told apart by hatching as well.
    """
    with rc_context({**_SETTINGS, "svg.hashsalt": "steps"}):
        figure, axes = _lay(0.9 + 0.26 * len(tallies))
        left = [0.0] * len(tallies)
        places = list(range(len(tallies)))
        for standing, (face, hatch) in _BARS.items():
            widths = [_percent(tally.counts, standing) for tally in tallies]
            axes.barh(
                places,
                widths,
                left=left,
                height=0.72,
                label=standing.value,
                facecolor=face,
                hatch=hatch,
                edgecolor=_SETTLED if hatch else _PLAIN,
                linewidth=0.7,
            )
            left = [a + b for a, b in zip(left, widths, strict=True)]
        axes.set_yticks(places, [f"{number + 1}" for number in places])
        axes.invert_yaxis()
        axes.margins(y=0.01)
        axes.set_xlim(0, 100)
        axes.set_xlabel("share of the hand-ins / %")
        axes.set_ylabel("step, by its number in the table")
        axes.legend(
            loc="lower center",
            bbox_to_anchor=(0.5, 1),
            ncols=6,
            frameon=False,
            handlelength=1.4,
            columnspacing=1.1,
            fontsize=9,
        )
        said = f"Stacked bars for {len(tallies)} steps. The figures follow in a table."
        return _encode(figure, said)


def _percent(counts: Mapping[Standing, int], standing: Standing) -> float:
    return 100 * counts.get(standing, 0) / max(sum(counts.values()), 1)


def _lay(height_in: float) -> tuple[Figure, Axes]:
    figure = Figure(figsize=(_WIDTH_IN, height_in), layout="constrained")
    axes = figure.add_subplot()
    axes.spines[["top", "right"]].set_visible(False)
    return figure, axes


def _encode(figure: Figure, said: str) -> str:
    """Return a figure as SVG for a page: no head, no style that reaches out of it."""
    file = io.StringIO()
    nothing = dict.fromkeys(("Creator", "Date", "Format", "Type"))
    figure.savefig(file, format="svg", transparent=True, metadata=nothing)
    svg = file.getvalue()
    svg = svg[svg.index("<svg") :]
    svg = re.sub(r"<style[^>]*>.*?</style>", "", svg, flags=re.DOTALL)
    svg = svg.replace("<svg ", f'<svg role="img" aria-label="{escape(said)}" ', 1)
    for colour, variable in _COLOURS.items():
        svg = svg.replace(colour, variable)
    return svg
