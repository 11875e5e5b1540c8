"""The verdict on lines of algebra: the first that stops following, and what comes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.expression import to_sympy
from workbook.judge import words
from workbook.judge.working import Working
from workbook.relation.tree import Equality, Operation, walk

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.judge.pad import Pad

#: More lines than this are no working [-].
LINE_LIMIT = 30


def judge_lines(pad: Pad, lines: Sequence[str]) -> Working:
    """
    Return the first line that stops following, and what is wrong with it.

    Lines behind it are judged from where it puts the student.

    Parameters
    ----------
    pad : Pad
        Its letters move as the lines say.
    lines : sequence of str
        As typed, in order.

    Returns
    -------
    Working
        Without a sentence when every line holds.
    """
    if not lines:
        return Working(holds=False, sentence=words.LINES_MISSING)
    read = _read(pad, lines)
    if isinstance(read, Working):
        return read
    stops = [at for at, line in enumerate(read) if not _follows(pad, line)]
    if stops:
        return Working(holds=False, sentence=_say(stops, len(lines)), at=stops[0])
    leads_on = any(map(_leads_on, read))
    return Working(holds=leads_on, sentence="" if leads_on else words.LINES_IDLE)


def _read(pad: Pad, lines: Sequence[str]) -> list[Equality] | Working:
    """Return the lines, or that there are too many, or the first that can't be read."""
    if len(lines) > LINE_LIMIT:
        said = words.LINES_MANY.format(limit=LINE_LIMIT)
        return Working(holds=False, sentence=said, at=LINE_LIMIT, unread=True)
    read: list[Equality] = []
    for at, text in enumerate(lines):
        line = pad.read(text, at + 1)
        if isinstance(line, str):
            return Working(holds=False, sentence=line, at=at, unread=True)
        read.append(line)
    return read


def _follows(pad: Pad, line: Equality) -> bool:
    if pad.holds(line):
        pad.keep(line)
        return True
    pad.move(line)
    return False


def _leads_on(line: Equality) -> bool:
    """Tell whether a line works something out: ``x = x`` and ``x = 281.5`` do not."""
    equation = to_sympy(line)
    nodes = (*walk(line.left), *walk(line.right))
    says_something = bool(equation.lhs - equation.rhs != 0)
    return says_something and any(isinstance(node, Operation) for node in nodes)


def _say(stops: Sequence[int], count: int) -> str:
    """Name the first line that stops, and say what becomes of those behind it."""
    first, *others = stops
    sentence = words.LINE_STOPS if first else words.LINE_FIRST_STOPS
    said = [sentence.format(line=first + 1)]
    if others:
        said.append(words.REST_STOPS.format(line=others[0] + 1))
    elif first + 1 < count:
        said.append(words.REST_FOLLOWS)
    return " ".join(said)
