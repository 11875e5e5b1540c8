"""The verdict on what belongs to what: which rows need another look."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge import words
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.wire.answer import Match


def judge_matching(
    matches: Sequence[Match],
    rows: Mapping[str, str],
    belongs: Mapping[str, Sequence[str]],
) -> Verdict:
    """
    Return the verdict on what belongs to what.

    Parameters
    ----------
    matches : sequence of Match
        As they were given; a row that is left out has nothing.
    rows : mapping of str to str
        What each row is called.
    belongs : mapping of str to sequence of str
        The options that belong to each row.

    Returns
    -------
    Verdict
        RIGHT, PARTLY, WRONG, BLANK where nothing is chosen, or UNREAD for what no
        table gives. It names rows, and not what belongs to them.
    """
    given = {match.row: set(match.options) for match in matches}
    if len(given) < len(matches) or not given.keys() <= rows.keys():
        return Verdict(Outcome.UNREAD, words.OTHER_KIND)
    if not any(given.values()):
        return Verdict(Outcome.BLANK, words.BLANK)
    parts = {row: given.get(row, set()) == set(belongs[row]) for row in rows}
    return judge_parts({rows[row]: holds for row, holds in parts.items()})


def judge_parts(parts: Mapping[str, bool]) -> Verdict:
    """
    Return the verdict on an answer that has parts.

    Parameters
    ----------
    parts : mapping of str to bool
        Whether each holds, by what it is called.

    Returns
    -------
    Verdict
        RIGHT where all hold; else it names those that do not.
    """
    held = tuple(parts.values())
    if all(held):
        return Verdict(Outcome.RIGHT, words.RIGHT_CHOICE, value_holds=True, parts=held)
    again = "; ".join(name for name, holds in parts.items() if not holds)
    if any(held):
        return Verdict(
            Outcome.PARTLY, words.AGAIN_PARTLY.format(names=again), parts=held
        )
    return Verdict(Outcome.WRONG, words.AGAIN.format(names=again), parts=held)
