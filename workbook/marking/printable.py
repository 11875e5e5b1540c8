"""Text from a hand-in, made safe to print: short, on one line, no control codes."""

from __future__ import annotations

#: Longer texts are cut: a person reads them in a table or on a terminal.
_MAX_LENGTH = 300


def to_printable(text: str) -> str:
    r"""
    Return a text with every character that a terminal acts on spelt out.

    Parameters
    ----------
    text : str
        From a file's name or content: nobody has checked it.

    Returns
    -------
    str
        At most 300 characters; a longer one ends in how much was left out.

    Examples
    --------
    >>> to_printable("13.6 g\n")
    '13.6 g\\n'
    """
    shown = "".join(map(_spell, text[:_MAX_LENGTH]))
    if (left_out := len(text) - _MAX_LENGTH) > 0:
        return f"{shown} ... ({left_out} more characters)"
    return shown


def _spell(character: str) -> str:
    if character.isprintable():
        return character
    return character.encode("unicode_escape").decode("ascii")
