"""Slips of the fingers: what was meant is right, what was typed may not be."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import random
    from collections.abc import Callable


def mistype(text: str, chance: random.Random) -> str:
    """
    Return a text with one slip of the fingers in it.

    Parameters
    ----------
    text : str
        A number with its unit.
    chance : random.Random
        Decides which slip, and where.

    Returns
    -------
    str
        The same text where no slip fits, as with one digit and no unit.

    Examples
    --------
    >>> from random import Random
    >>> mistype("12.5 mL", Random(3))
    'l2.5 mL'
    """
    ways = [way for way in _WAYS if way(text, chance) != text]
    return chance.choice(ways)(text, chance) if ways else text


def _swapped(text: str, chance: random.Random) -> str:
    """Swap two neighbouring digits."""
    at = [
        index
        for index, (left, right) in enumerate(pairwise(text))
        if left.isdecimal() and right.isdecimal() and left != right
    ]
    if not at:
        return text
    here = chance.choice(at)
    return text[:here] + text[here + 1] + text[here] + text[here + 2 :]


def _missed(text: str, chance: random.Random) -> str:
    """Miss a key of the number."""
    end = len(_number(text))
    if end < 2:  # noqa: PLR2004 - something must be left
        return text
    here = chance.randrange(end)
    return text[:here] + text[here + 1 :]


def _doubled(text: str, chance: random.Random) -> str:
    """Hold a key of the number for too long."""
    here = chance.randrange(len(_number(text)) or 1)
    return text[: here + 1] + text[here:]


def _neighbour(text: str, chance: random.Random) -> str:
    """Hit the digit beside the one that was meant."""
    at = [index for index, sign in enumerate(text) if sign in "123456789"]
    if not at:
        return text
    here = chance.choice(at)
    beside = str((int(text[here]) + chance.choice([-1, 1])) % 10)
    return text[:here] + beside + text[here + 1 :]


def _letter(text: str, _: random.Random) -> str:
    """Type a letter for the digit that looks like it."""
    for digit, letter in (("0", "O"), ("1", "l")):
        if digit in _number(text):
            return text.replace(digit, letter, 1)
    return text


def _unit_forgotten(text: str, _: random.Random) -> str:
    return _number(text).strip()


def _number(text: str) -> str:
    """Return the part of a text up to its unit."""
    signs = [i for i, sign in enumerate(text) if sign.isalpha() or sign in "%·×"]
    return text[: signs[0]] if signs else text


_WAYS: tuple[Callable[[str, random.Random], str], ...] = (
    _swapped,
    _missed,
    _doubled,
    _neighbour,
    _letter,
    _unit_forgotten,
)
