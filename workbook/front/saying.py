"""How a verdict is shown: a mark, a word, and the checker's sentence."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from workbook.front.shape import draw
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.wire.verdict import Verdict

#: The word of each outcome, with its stop.
WORDS = {
    Outcome.RIGHT: "Agrees.",
    Outcome.FOLLOWS: "Follows on.",
    Outcome.FIGURES: "Look at the figures.",
    Outcome.SLIP: "A slip.",
    Outcome.WRONG: "Does not agree.",
    Outcome.DIMENSION: "Another kind of unit.",
    Outcome.PARTLY: "Partly.",
    Outcome.COMMITTED: "Your word stands.",
    Outcome.NOTED: "Noted.",
    Outcome.KEPT: "Kept.",
    Outcome.UNREAD: "Not understood.",
    Outcome.ASKED: "Which one?",
    Outcome.COARSE: "Too few figures.",
    Outcome.UNFIT: "Not noted.",
    Outcome.EARLY: "Not yet.",
    Outcome.BLANK: "Still empty.",
    Outcome.NOT_JUDGED: "Not judged yet.",
}

#: The ink of each outcome: a class of the style sheet.
INKS = {
    Outcome.RIGHT: "settled",
    Outcome.FOLLOWS: "settled",
    Outcome.FIGURES: "again",
    Outcome.SLIP: "again",
    Outcome.WRONG: "open",
    Outcome.DIMENSION: "again",
    Outcome.PARTLY: "again",
    Outcome.COMMITTED: "settled",
    Outcome.NOTED: "settled",
    Outcome.KEPT: "settled",
    Outcome.UNREAD: "plain",
    Outcome.ASKED: "plain",
    Outcome.COARSE: "plain",
    Outcome.UNFIT: "again",
    Outcome.EARLY: "plain",
    Outcome.BLANK: "plain",
    Outcome.NOT_JUDGED: "plain",
}

#: Shown while a verdict is awaited.
CHECKING = '<p class="wb-note">Checking …</p>'

_CHANGED = "What stands here is not what was judged. Check it again."


def show_verdict(verdict: Verdict, *, is_current: bool) -> str:
    """
    Return the HTML of a verdict.

    Parameters
    ----------
    verdict : Verdict
        What the checker said.
    is_current : bool
        False when the answer was changed after it was judged.

    Returns
    -------
    str
        Everything that came from elsewhere is escaped.
    """
    ink = INKS[verdict.outcome]
    word = f'<strong class="wb-word">{WORDS[verdict.outcome]}</strong>'
    lines = [f"<p>{word} {escape(verdict.sentence)}</p>"]
    if verdict.read_as:
        lines.append(f'<p class="wb-note">Read as {escape(verdict.read_as)}.</p>')
    if not is_current:
        lines.append(f'<p class="wb-note">{_CHANGED}</p>')
    body = "".join(lines)
    return (
        f'<div class="wb-said wb-{ink}">{draw(verdict.outcome)}<div>{body}</div></div>'
    )


def show_note(sentence: str) -> str:
    """
    Return the HTML of a sentence of our own.

    Parameters
    ----------
    sentence : str
        Plain text.

    Returns
    -------
    str
        Escaped.
    """
    return f'<p class="wb-note">{escape(sentence)}</p>' if sentence else ""
