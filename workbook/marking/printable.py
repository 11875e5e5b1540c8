"""
Text from a hand-in, made safe to print: short, on one line, no control codes.

In a table a spreadsheet runs a cell that starts like a formula. Such a text gets an
apostrophe in front, which spreadsheets take as "this is text".
"""

from __future__ import annotations

#: Longer texts are cut: a person reads them in a table or on a terminal.
_MAX_LENGTH = 300

#: First characters that make a formula of a cell; those past the line end are the
#: signs = + - @ in full width. OWASP Foundation, "CSV Injection", community page;
#: from memory.
_FORMULA_STARTS = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")


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


def to_cell(text: str) -> str:
    """
    Return a text that is no formula in a spreadsheet.

    Parameters
    ----------
    text : str
        For a cell of a CSV file.

    Returns
    -------
    str
        With an apostrophe in front where it starts like a formula.

    Examples
    --------
    >>> to_cell("=1+1"), to_cell("13.6 g")
    ("'=1+1", '13.6 g')
    """
    return f"'{text}" if text.startswith(_FORMULA_STARTS) else text


def from_cell(cell: str) -> str:
    """
    Return the text that `to_cell` made a cell of.

    Parameters
    ----------
    cell : str
        As it stands in a CSV file, also where no apostrophe was needed.

    Returns
    -------
    str
        The text.

    Examples
    --------
    >>> from_cell("'=1+1"), from_cell("'tis")
    ('=1+1', "'tis")
    """
    text = cell.removeprefix("'")
    return text if cell != text and text.startswith(_FORMULA_STARTS) else cell


def _spell(character: str) -> str:
    if character.isprintable():
        return character
    return character.encode("unicode_escape").decode("ascii")
