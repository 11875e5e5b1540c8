"""
What a student answers, in the form that crosses the border.

Everything is kept as it was typed: reading it is the judge's work.
"""

from __future__ import annotations

from typing import TypeAlias

from msgspec import Struct


class Typed(Struct, frozen=True, forbid_unknown_fields=True, tag="typed"):
    """One text: the answer to a reading or a number step, or a text to be read."""

    #: As typed, unit included: ``"13.62 g"``.
    text: str


class Noted(Struct, frozen=True, forbid_unknown_fields=True, tag="noted"):
    """A reading of the student's own bench; once it is noted, a reason changes it."""

    #: As typed, unit included: ``"45.12 g"``.
    text: str
    #: Why it changes; empty for a first one.
    reason: str = ""
    #: The text in whose place it stands; empty for a first one.
    instead_of: str = ""


class Placed(Struct, frozen=True, forbid_unknown_fields=True):
    """A factor that was put into a chain."""

    #: The `Factor.id` of the offer that was chosen.
    factor: str
    #: True when the student turned it over: denominator on top.
    turned: bool


class Built(Struct, frozen=True, forbid_unknown_fields=True, tag="built"):
    """A factor chain, and the result that was typed under it."""

    #: In the order of placing.
    factors: tuple[Placed, ...]
    #: The result as typed, unit included.
    text: str


class Derived(Struct, frozen=True, forbid_unknown_fields=True, tag="derived"):
    """An algebra pad: lines of working, and the result that was typed under them."""

    #: One equation a line, as typed, in order; blank lines left out.
    lines: tuple[str, ...]
    #: The result as typed, unit included.
    text: str


class Chosen(Struct, frozen=True, forbid_unknown_fields=True, tag="chosen"):
    """Options that were ticked."""

    #: `Option.id` of each, in the order of the step's own list.
    options: tuple[str, ...]


class Ordered(Struct, frozen=True, forbid_unknown_fields=True, tag="ordered"):
    """Cards that were put in order."""

    #: `Option.id` of each that is placed, first to last.
    cards: tuple[str, ...]


class Match(Struct, frozen=True, forbid_unknown_fields=True):
    """What was said to belong to one row."""

    row: str
    #: `Option.id` of each, in the order of the step's own list.
    options: tuple[str, ...]


class Matched(Struct, frozen=True, forbid_unknown_fields=True, tag="matched"):
    """What was said to belong to what."""

    #: A row each.
    matches: tuple[Match, ...]


class Filling(Struct, frozen=True, forbid_unknown_fields=True):
    """What was typed into one cell."""

    row: str
    column: str
    #: As typed; the unit may stand beside the cell instead.
    text: str


class Filled(Struct, frozen=True, forbid_unknown_fields=True, tag="filled"):
    """A table of reagents that was filled in."""

    #: Every cell that is asked, from left to right and from top to bottom.
    cells: tuple[Filling, ...]
    #: The `ReagentRow.id` of the reagent that limits; empty where none is chosen.
    limiting: str = ""


Answer: TypeAlias = (
    Typed | Noted | Built | Derived | Chosen | Ordered | Matched | Filled
)
