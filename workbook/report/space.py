"""How much of a page things take, reckoned before a browser sets them."""

from __future__ import annotations

from functools import cache
from math import ceil
from textwrap import wrap
from typing import TYPE_CHECKING
from xml.etree.ElementTree import fromstring

from workbook.wire.sheet import MatchingStep, MechanismStep, OrderStep, ReagentsStep

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from workbook.wire.sheet import ReadingStep, Step

#: A line of print, 9 pt with a lead of 1.18 [mm].
LINE = 3.75

#: Letters of a line across the page, across a column of tasks, and below an instrument,
#: in the widest serif that a system falls back on. [-]
ACROSS, COLUMN, BELOW = 100, 55, 25

#: What stands before each thing to tick, and behind it. [letters]
_BOX = 6

#: A line to write a word or a number on. [mm]
_ANSWER = 5.6

#: A row of a table, whose head may break. [mm]
_ROW = 9.0

#: Around a task, and around an instrument. [mm]
_AROUND = 1.2

#: How wide an instrument is printed: so that the finest numerals of a glass can be
#: read, and the digits of a display. [mm]
_GLASS, _DISPLAY = 41.0, 30.0


def balance(heights: Sequence[float], columns: int) -> float:
    """
    Return how high columns become that hold pieces in order, none of them broken.

    Parameters
    ----------
    heights : sequence of float
        Of the pieces [mm].
    columns : int
        How many columns there are.

    Returns
    -------
    float
        To a millimetre above the lowest [mm]; 0 for no pieces.

    Examples
    --------
    >>> balance([30, 30, 30], 2)
    60.0
    """
    if not heights:
        return 0.0
    height = float(ceil(max(*heights, sum(heights) / columns)))
    while _count_columns(heights, height) > columns:
        height += 1.0
    return height


def _count_columns(heights: Iterable[float], height: float) -> int:
    columns, filled = 1, 0.0
    for piece in heights:
        if filled + piece > height:
            columns, filled = columns + 1, 0.0
        filled += piece
    return columns


@cache
def count_lines(text: str, letters: int) -> int:
    """
    Return how many lines a text takes.

    Parameters
    ----------
    text : str
        Without breaks of its own.
    letters : int
        How many go into a line.

    Returns
    -------
    int
        One at least.
    """
    return max(1, len(wrap(text, letters)))


def measure_picture(step: ReadingStep) -> tuple[float, float]:
    """
    Return how large the picture of an instrument is printed.

    Parameters
    ----------
    step : ReadingStep
        The reading.

    Returns
    -------
    tuple of float
        Width and height [mm]; nothing for words alone.
    """
    if not step.picture:
        return 0.0, 0.0
    box = fromstring(step.picture).get("viewBox", "")  # noqa: S314 - a drawing of our own
    across, down = (float(number) for number in box.split()[2:])
    width = _GLASS if down > across else _DISPLAY
    return width, width * down / across


def measure_reading(step: ReadingStep) -> float:
    """
    Return how high an instrument stands with what is said of it.

    Parameters
    ----------
    step : ReadingStep
        The reading.

    Returns
    -------
    float
        With a line to write on [mm].
    """
    _, height = measure_picture(step)
    text = f"00. {step.asks} {step.instrument}. {'' if step.picture else step.seen}"
    return height + count_lines(text, BELOW) * LINE + _ANSWER + 2 * _AROUND


def measure_step(step: Step, todo: str) -> float:
    """
    Return how high a step is printed, without room to work it out.

    Parameters
    ----------
    step : Step
        The step.
    todo : str
        What is said beside the question.

    Returns
    -------
    float
        In its column [mm].
    """
    unit = getattr(step, "unit", "")
    height = count_lines(f"00. {step.asks} {todo} (in {unit})", COLUMN) * LINE
    height += _count_rows(_list_choices(step)) * LINE
    for text in getattr(step, "prompts", ()):
        height += count_lines(text, COLUMN - 3) * LINE
    if letters := getattr(step, "letters", ()):
        said = (
            *getattr(step, "known", ())[:2],
            *(at.symbol + at.means for at in letters),
        )
        height += count_lines("Known: " + "; ".join(said), COLUMN) * LINE
    if isinstance(step, ReagentsStep):
        height += (1 + len(step.rows)) * _ROW + step.asks_limiting * _ANSWER
    elif isinstance(step, MatchingStep):
        height += ceil(len(step.rows) / 2) * _ANSWER
    elif hasattr(step, "instrument"):
        height += _ANSWER
    return height + _AROUND


def _list_choices(step: Step) -> list[str]:
    if isinstance(step, MechanismStep):
        return [f"{card.text}: {card.change}" for card in step.cards]
    if isinstance(step, OrderStep):
        return [card.text for card in step.cards]
    return [option.text for option in getattr(step, "options", ())]


def _count_rows(texts: Iterable[str]) -> int:
    """Return how many lines things to tick take, short ones beside each other."""
    rows, filled = 0, COLUMN
    for text in texts:
        letters = len(text) + _BOX
        if filled + letters <= COLUMN:
            filled += letters
            continue
        lines = count_lines(text, COLUMN - _BOX)
        rows += lines
        filled = letters if lines == 1 else COLUMN
    return rows
