"""
Which units of a factor chain cancel, and which are left.

A unit cancels only against the same unit of the same substance: a mole of oil
does not cancel a mole of soap.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from workbook.wire.sheet import ChainStep, Factor


@dataclass(frozen=True)
class Count:
    """So many units of something."""

    #: As printed; empty when it is asked elsewhere.
    number: str
    #: Empty for a pure number.
    unit: str
    #: What is counted: "olive oil"; may be empty.
    of: str

    @property
    def words(self) -> str:
        """The unit with what it counts, ``"mL of olive oil"``."""
        return f"{self.unit} of {self.of}" if self.of else self.unit


@dataclass(frozen=True)
class Link:
    """One member of a chain: a fraction, or the value that it starts from."""

    top: Count
    #: None for the value that the chain starts from.
    bottom: Count | None


@dataclass(frozen=True)
class Reduced:
    """A chain after cancelling."""

    #: For each link, whether its top, and its bottom, were cancelled.
    tops: tuple[bool, ...]
    bottoms: tuple[bool, ...]
    #: What is left above and below the line.
    above: tuple[Count, ...]
    below: tuple[Count, ...]

    @property
    def words(self) -> str:
        """The unit that is left, ``"g of olive oil"``, ``"no unit"``."""
        above = " times ".join(count.words for count in self.above)
        below = " times ".join(count.words for count in self.below)
        if below:
            return f"{above or '1'} per {below}"
        return above or "no unit"


def start_link(step: ChainStep) -> Link:
    """
    Return the value that a chain starts from.

    Parameters
    ----------
    step : ChainStep
        As it stands on the sheet.

    Returns
    -------
    Link
        Without a bottom.
    """
    return Link(Count("", step.start_unit, step.start_of), None)


def factor_link(factor: Factor, *, is_turned: bool) -> Link:
    """
    Return a factor as it was placed.

    Parameters
    ----------
    factor : Factor
        As it is offered.
    is_turned : bool
        True to put its denominator on top.

    Returns
    -------
    Link
        With a bottom.
    """
    top = Count(factor.top, factor.top_unit, factor.top_of)
    bottom = Count(factor.bottom, factor.bottom_unit, factor.bottom_of)
    return Link(bottom, top) if is_turned else Link(top, bottom)


def cancel(links: Sequence[Link]) -> Reduced:
    """
    Cancel each unit below the line against the first equal one above it.

    Parameters
    ----------
    links : sequence of Link
        The chain, in order.

    Returns
    -------
    Reduced
        With one mark for each link's top and bottom.

    Examples
    --------
    >>> oil = Link(Count("", "mL", "oil"), None)
    >>> density = Link(Count("0.911", "g", "oil"), Count("1", "mL", "oil"))
    >>> cancel([oil, density]).words
    'g of oil'
    """
    tops = [False] * len(links)
    bottoms = [False] * len(links)
    for at, link in enumerate(links):
        against = None if link.bottom is None else _match(links, tops, link.bottom)
        if against is not None:
            bottoms[at] = tops[against] = True
    return Reduced(
        tops=tuple(tops),
        bottoms=tuple(bottoms),
        above=_left(zip((link.top for link in links), tops, strict=True)),
        below=_left(zip((link.bottom for link in links), bottoms, strict=True)),
    )


def _match(links: Sequence[Link], tops: Sequence[bool], bottom: Count) -> int | None:
    """Return the first link whose top still stands and equals *bottom*."""
    if not bottom.unit:
        return None
    wanted = (bottom.unit, bottom.of)
    for at, link in enumerate(links):
        if not tops[at] and (link.top.unit, link.top.of) == wanted:
            return at
    return None


def _left(counts: Iterable[tuple[Count | None, bool]]) -> tuple[Count, ...]:
    return tuple(
        count
        for count, is_cancelled in counts
        if count is not None and count.unit and not is_cancelled
    )
