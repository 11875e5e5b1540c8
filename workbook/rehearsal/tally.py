"""What became of the attempts of a simulated class, counted."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field


@dataclass(slots=True)
class Count:
    """How many of some attempts were as counted."""

    hits: int = 0
    of: int = 0

    def add(self, *, is_hit: bool) -> None:
        """
        Count one more.

        Parameters
        ----------
        is_hit : bool
            Whether it was as counted.
        """
        self.of += 1
        self.hits += is_hit

    @property
    def share(self) -> float:
        """Hits of all [-]; 0 of none."""
        return self.hits / self.of if self.of else 0.0


@dataclass(slots=True)
class Tally:
    """The figures of one lab."""

    #: Steps answered and judged.
    attempts: int = 0
    honest_wrong: Count = field(default_factory=Count)
    #: Slips that a number can show.
    named: Count = field(default_factory=Count)
    #: Of all single slips.
    misnamed: Count = field(default_factory=Count)
    #: Slips near the right answer, and slips whose value another sentence shares.
    unseen: Count = field(default_factory=Count)
    twins: Count = field(default_factory=Count)
    #: Slips that were shown in a chain, or in a line of algebra.
    shown: Count = field(default_factory=Count)
    guesses_named: Count = field(default_factory=Count)
    guesses_right: Count = field(default_factory=Count)
    #: How many guesses should be right by the width of the bands.
    guesses_expected: float = 0.0
    followed: Count = field(default_factory=Count)
    #: Right answers behind an impossible value, where follow-through stops.
    stopped: int = 0
    second_named: Count = field(default_factory=Count)
    second_misnamed: Count = field(default_factory=Count)
    typing_named: Count = field(default_factory=Count)
    typing_no_try: Count = field(default_factory=Count)
    typing_right: Count = field(default_factory=Count)
    #: Draws in which a slip that the lab can show is accepted as right.
    variants_inside: Count = field(default_factory=Count)
    leaks: Count = field(default_factory=Count)
    #: What was not as it should be, by figure, with one example of each.
    misses: Counter[tuple[str, str, str]] = field(default_factory=Counter)
    examples: dict[tuple[str, str, str], str] = field(default_factory=dict)

    def miss(self, figure: str, step: str, what: str, example: str) -> None:
        """
        Keep what was not as it should be.

        Parameters
        ----------
        figure : str
            The figure that it spoils.
        step : str
            Where it happened.
        what : str
            The slip or the outcome.
        example : str
            What was typed, and what was said.
        """
        key = figure, step, what
        self.misses[key] += 1
        self.examples.setdefault(key, example)
