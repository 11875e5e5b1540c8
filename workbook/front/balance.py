"""The balance of the steps of a mechanism: what each keeps, and what is used so far."""

from __future__ import annotations

from collections import Counter
from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.wire.sheet import Move, Side

_MINUS = "\N{MINUS SIGN}"
_HEAD = ("Step", "Change", "Atoms", "Charge before", "Charge after")


def show_balance(moves: Sequence[Move]) -> str:
    """
    Return HTML of the balance of steps, in the order in which they stand.

    Parameters
    ----------
    moves : sequence of Move
        First to last.

    Returns
    -------
    str
        A table, and what all of it comes to; empty when nothing is placed.
    """
    if not moves:
        return ""
    head = "".join(f'<th scope="col">{title}</th>' for title in _HEAD)
    rows = "".join(_show_row(number, move) for number, move in enumerate(moves, 1))
    return (
        '<div class="wb-wide wb-balance" tabindex="0" role="region" '
        'aria-label="Balance of the steps">'
        f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>"
        f"{_show_sum(moves)}"
    )


def say_atoms(takes: Side, gives: Side) -> str:
    """
    Return in words whether a step keeps its atoms.

    Parameters
    ----------
    takes, gives : Side
        What stands on the two sides of its arrow.

    Returns
    -------
    str
        "kept", or what is lost and what comes from nowhere.
    """
    gaps = {
        symbol: gives.atoms.get(symbol, 0) - takes.atoms.get(symbol, 0)
        for symbol in dict.fromkeys((*takes.atoms, *gives.atoms))
    }
    told = [
        f"{abs(gap)} {symbol} {'gained' if gap > 0 else 'lost'}"
        for symbol, gap in gaps.items()
        if gap
    ]
    return ", ".join(told) or "kept"


def write_charge(charge: int) -> str:
    """
    Return a charge with its sign.

    Parameters
    ----------
    charge : int
        In elementary charges [-].

    Returns
    -------
    str
        With a true sign of minus.

    Examples
    --------
    >>> write_charge(-1), write_charge(0), write_charge(2)
    ('−1', '0', '+2')
    """
    return f"{charge:+d}".replace("-", _MINUS) if charge else "0"


def net(moves: Sequence[Move]) -> tuple[dict[str, int], dict[str, int]]:
    """
    Return what several steps use and what they form, taken together.

    Parameters
    ----------
    moves : sequence of Move
        In any order.

    Returns
    -------
    tuple of dict and dict
        How many of each species are used, and formed; what one step forms and another
        uses is in neither [-].
    """
    total: Counter[str] = Counter()
    for move in moves:
        total.update(move.gives.species)
        total.subtract(move.takes.species)
    used = {species: -count for species, count in total.items() if count < 0}
    formed = {species: count for species, count in total.items() if count > 0}
    return used, formed


def _show_row(number: int, move: Move) -> str:
    seen = f'<span aria-hidden="true">{escape(move.change)}</span>'
    cells = (
        f'{seen}<span class="wb-unseen">{escape(move.said)}</span>',
        say_atoms(move.takes, move.gives),
        write_charge(move.takes.charge),
        _mark_charge(move),
    )
    body = "".join(f"<td>{cell}</td>" for cell in cells)
    return f'<tr><th scope="row">{number}</th>{body}</tr>'


def _mark_charge(move: Move) -> str:
    written = write_charge(move.gives.charge)
    is_kept = move.takes.charge == move.gives.charge
    return written if is_kept else f'{written} <em class="wb-point">not kept</em>'


def _show_sum(moves: Sequence[Move]) -> str:
    used, formed = (_write(species) for species in net(moves))
    return (
        f'<p class="wb-note">All steps together use <strong>{used}</strong> and form '
        f"<strong>{formed}</strong>.</p>"
    )


def _write(species: Mapping[str, int]) -> str:
    named = (f"{n} {name}" if n > 1 else name for name, n in species.items())
    return escape(" + ".join(named)) or "nothing"
