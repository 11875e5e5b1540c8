"""Hazard statements by their codes, with the official text of each."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from workbook.errors import MatterError, nearest


@dataclass(frozen=True, slots=True)
class Statement:
    """A hazard statement: its code, and its text word for word."""

    code: str
    text: str


@cache
def _statements() -> dict[str, Statement]:
    table = files("workbook.labfile").joinpath("ghs.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in table.splitlines() if line[:1] != "#")
    return {row["code"]: Statement(row["code"], row["text"]) for row in rows}


def known_statements() -> tuple[Statement, ...]:
    """
    Return every hazard statement of the table.

    Returns
    -------
    tuple of Statement
        In the order of their codes.
    """
    return tuple(_statements().values())


def read_statement(code: str) -> Statement:
    """
    Return the hazard statement with this code.

    Parameters
    ----------
    code : str
        ``"H314"``; case counts.

    Returns
    -------
    Statement
        The code with its official text.

    Raises
    ------
    MatterError
        If the table has no such code.

    Examples
    --------
    >>> read_statement("H314").text
    'Causes severe skin burns and eye damage'

    References
    ----------
    .. [1] United Nations, Globally Harmonized System of Classification and
       Labelling of Chemicals, Annex 3; see the head of ``ghs.csv``.
    """
    try:
        return _statements()[code]
    except KeyError:
        msg = (
            f"{code!r} is no hazard statement that is known here."
            f"{nearest(code, _statements())}"
        )
        raise MatterError(msg) from None
