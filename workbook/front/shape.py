"""
The marks in the margin of a card: what a careful reader would draw there in ink.

A result that holds gets the double rule of a bookkeeper; every other mark is what
became of that line. They are drawn, not letters of a font, so that every screen
shows the same, and hidden from screen readers, which read the word beside them.
"""

from __future__ import annotations

from workbook.wire.verdict import Outcome

#: Path of each mark in a field of 28 by 28.
PATHS = {
    # Two rules under a result: it is settled.
    Outcome.RIGHT: "M4 11h20M4 17h20",
    # The same, reached by coming down from a line above.
    Outcome.FOLLOWS: "M5 4v7q0 4 5 4h14M10 21h14",
    # Two rules, the lower one short: digits are missing, or too many.
    Outcome.FIGURES: "M4 11h20M4 17h7M15 17h2M20 17h2",
    # The line drops to the wrong level.
    Outcome.SLIP: "M4 10h10v8h10",
    # The line breaks off, and goes on elsewhere.
    Outcome.WRONG: "M4 18h7M17 10h7",
    # Two things that can't be added: a square and a circle.
    Outcome.DIMENSION: "M3 9h10v10h-10zM16 14a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0-9 0",
    # The upper rule is drawn, the lower one begun.
    Outcome.PARTLY: "M4 11h20M4 17h10",
    # A stake driven into the line.
    Outcome.COMMITTED: "M4 20h20M14 4v20M10 8h8",
    # A pin through the line: it is fixed there.
    Outcome.NOTED: "M4 20h20M14 12v8M9 8a5 5 0 1 0 10 0a5 5 0 1 0-10 0",
    # A few lines of writing.
    Outcome.KEPT: "M4 8h20M4 14h20M4 20h12",
    # A scrawl.
    Outcome.UNREAD: "M4 14q2.5-8 5 0t5 0t5 0t5 0",
    # One line that leads two ways.
    Outcome.ASKED: "M4 14h8l11-7M12 14l11 7",
    # A scale with its end marks only.
    Outcome.COARSE: "M4 8v12M24 8v12M4 14h20",
    # Something that does not pass between two posts.
    Outcome.UNFIT: "M4 8v12M12 8v12M16 14h8M21 11l3 3-3 3",
    # A line with a gap before it.
    Outcome.EARLY: "M4 14h2M10 14h2M18 14h6M18 10v8",
    # A line that waits to be written on.
    Outcome.BLANK: "M4 18h3M11 18h3M18 18h3",
    # Not judged yet: a sheet with its corner folded.
    Outcome.NOT_JUDGED: "M7 4h10l5 5v15h-15zM17 4v5h5",
}


def draw(outcome: Outcome) -> str:
    """
    Return the mark of an outcome as inline SVG.

    Parameters
    ----------
    outcome : Outcome
        What became of an attempt.

    Returns
    -------
    str
        In the colour of the text around it.
    """
    return (
        '<svg class="wb-mark" viewBox="0 0 28 28" aria-hidden="true" '
        f'focusable="false"><path d="{PATHS[outcome]}"/></svg>'
    )
