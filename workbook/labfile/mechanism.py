"""Rules on mechanisms: every card that belongs is balanced, and has its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import nearest
from workbook.labfile.kind import MechanismTable
from workbook.labfile.order import find_wrong
from workbook.labfile.step import placed_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile

_UNBALANCED = (
    "{!r} does not keep its atoms and its charge. Mend it, or list it among the decoys."
)


def mechanisms_can_be_laid(file: LabFile) -> Iterator[Finding]:
    """
    Find mechanisms with cards that lose atoms or charge, or have no place.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each step.
    """
    for place, step in placed_steps(file):
        if isinstance(step, MechanismTable):
            for key in _unbalanced(step):
                yield (*place, "cards", key, "change"), _UNBALANCED.format(key)
            for key in step.decoys:
                if key not in step.cards:
                    hint = nearest(key, step.cards)
                    yield (*place, "decoys"), f"{key!r} is none of the cards.{hint}"
            for sentence in find_wrong(step.belonging, step.before):
                yield (*place, "before"), sentence


def _unbalanced(step: MechanismTable) -> list[str]:
    return [key for key in step.belonging if not step.cards[key].change.is_balanced]
