"""The figures of a rehearsal as a page of text: each beside its reach."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from workbook.rehearsal.tally import Count, Tally

#: Least share of the slips that a number can show, to be named rightly [-].
NAMED_REACH = 0.95

#: Largest share of single slips to be named wrongly, and of guesses to be named [-].
MISNAMED_REACH, GUESS_REACH = 0.005, 0.01

#: Guesses may be right so many times their spread more often than the bands allow [-].
_SPREADS = 4.0

#: Lines of a list of what was missed [-].
_LISTED = 12

#: What became of a figure.
_MARKS = {True: "reached", False: "MISSED", None: ""}


@dataclass(frozen=True, slots=True)
class Row:
    """One figure."""

    figure: str
    reach: str
    found: str
    #: None where there is no reach.
    is_reached: bool | None = None


def tabulate(tally: Tally) -> tuple[Row, ...]:
    """
    Return the figures that a lab must reach.

    Parameters
    ----------
    tally : Tally
        Of one lab.

    Returns
    -------
    tuple of Row
        In the order of the page.
    """
    t, none = tally, "0"
    expected, guesses = t.guesses_expected, t.guesses_right
    allowed = expected + _SPREADS * max(expected, 1.0) ** 0.5
    return (
        Row(
            "honest attempts judged wrong",
            none,
            _plain(t.honest_wrong),
            t.honest_wrong.hits == 0,
        ),
        Row(
            "slips that a number can show, named rightly",
            f"at least {NAMED_REACH:.0%}",
            _share(t.named),
            t.named.share >= NAMED_REACH,
        ),
        Row(
            "single slips named wrongly",
            f"at most {MISNAMED_REACH:.1%}",
            _share(t.misnamed),
            t.misnamed.share <= MISNAMED_REACH,
        ),
        Row(
            "guesses that get a slip's sentence",
            f"at most {GUESS_REACH:.0%}",
            _share(t.guesses_named),
            t.guesses_named.share <= GUESS_REACH,
        ),
        Row(
            "guesses judged right",
            f"{expected / max(guesses.of, 1):.2%} by width",
            _share(guesses),
            guesses.hits <= allowed,
        ),
        Row(
            "right answers after a slip that earn the step",
            "100 %",
            _plain(t.followed),
            t.followed.hits == t.followed.of,
        ),
        Row(
            "variants with a slip inside the band",
            none,
            _plain(t.variants_inside),
            t.variants_inside.hits == 0,
        ),
        Row(
            "sentences that tell a number of the key",
            none,
            _plain(t.leaks),
            t.leaks.hits == 0,
        ),
    )


def _further(tally: Tally) -> tuple[Row, ...]:
    """Return figures without a reach, so that nothing is left out of sight."""
    t = tally
    return (
        Row("slips too near to the right answer to show", "", _share(t.unseen)),
        Row("slips that share their value with another", "", _share(t.twins)),
        Row("slips shown in a chain or a line, and told", "", _share(t.shown)),
        Row("of two slips on a sheet, named rightly", "", _share(t.second_named)),
        Row("of two slips on a sheet, named wrongly", "", _share(t.second_misnamed)),
        Row("typing errors that cost no try", "", _share(t.typing_no_try)),
        Row("typing errors that get a slip's sentence", "", _share(t.typing_named)),
        Row("typing errors that leave the value right", "", _share(t.typing_right)),
        Row("answers behind an impossible value", "", str(t.stopped)),
    )


def print_page(title: str, tally: Tally) -> str:
    """
    Return the page of one lab.

    Parameters
    ----------
    title : str
        The lab's name.
    tally : Tally
        Its figures.

    Returns
    -------
    str
        A table, and what was missed, with an example of each.
    """
    rows = [Row("figure", "reach", "found"), *tabulate(tally), *_further(tally)]
    lines = [f"{title}: {tally.attempts} attempts", "", *_set(rows)]
    for figure, head in _HEADS.items():
        found = list(_list(tally, figure))
        if found:
            lines += ["", head, *found]
    return "\n".join(lines)


#: What each list of misses says of itself.
_HEADS = {
    "honest": "Honest, and judged wrong:",
    "not named": "Could be seen, and was not named:",
    "named wrongly": "Named wrongly:",
    "not followed": "Right by their own values, and not accepted:",
    "inside": "Slips inside the band of the right answer:",
    "number told": "Sentences that tell a number:",
    "working": "Shown in the working, and not told:",
    "unseen": "Too near to the right answer to show:",
    "twins": "Lead to the same value as another sentence:",
    "guess named": "Guesses that were named:",
}


def _list(tally: Tally, figure: str) -> Iterator[str]:
    found = [(number, key) for key, number in tally.misses.items() if key[0] == figure]
    found.sort(key=lambda pair: (-pair[0], pair[1]))
    for number, key in found[:_LISTED]:
        yield f"{number:>7}  {key[1]}: {key[2]}"
        yield f"         {tally.examples[key]}"
    if len(found) > _LISTED:
        rest = sum(number for number, _ in found[_LISTED:])
        yield f"{rest:>7}  of {len(found) - _LISTED} further kinds"


def _set(rows: Sequence[Row]) -> Iterator[str]:
    widths = [max(len(getattr(r, part)) for r in rows) for part in ("figure", "reach")]
    for row in rows:
        mark = _MARKS[row.is_reached]
        head = f"{row.figure:<{widths[0]}}  {row.reach:<{widths[1]}}"
        yield f"{head}  {row.found:<24} {mark}".rstrip()


def _share(count: Count) -> str:
    return f"{count.share:.2%}  ({count.hits} of {count.of})"


def _plain(count: Count) -> str:
    return f"{count.hits} of {count.of}"
