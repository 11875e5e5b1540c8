"""What is said of an answer that is kept and not judged: a prediction, a text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.labfile.half import Ask
    from workbook.wire.answer import Chosen, Typed


def commit(ask: Ask, answer: Chosen) -> Verdict:
    """
    Return what is said of a prediction: that it was made.

    Parameters
    ----------
    ask : Ask
        The step.
    answer : Chosen
        What was ticked.

    Returns
    -------
    Verdict
        COMMITTED, whatever was ticked; BLANK where nothing is, UNREAD where it is not
        one of the options.
    """
    if not answer.options:
        return Verdict(Outcome.BLANK, words.BLANK)
    offered = dict(ask.options)
    if len(answer.options) > 1 or answer.options[0] not in offered:
        return Verdict(Outcome.UNREAD, words.OTHER_KIND)
    return Verdict(Outcome.COMMITTED, words.COMMITTED, value_holds=True)


def keep(answer: Typed) -> Verdict:
    """
    Return what is said of a text: that a person will read it.

    Parameters
    ----------
    answer : Typed
        As it was typed.

    Returns
    -------
    Verdict
        KEPT, or BLANK where nothing is written.
    """
    if not answer.text.strip():
        return Verdict(Outcome.BLANK, words.UNWRITTEN)
    return Verdict(Outcome.KEPT, words.KEPT)
