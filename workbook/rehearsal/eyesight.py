"""Instruments misread at an honest seat, in each of the ways that a judge may name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.slip_rule.sentence import TOGETHER, say_together
from workbook.judge.misreading import find_misreadings
from workbook.measure.rounding import Ties, round_place
from workbook.rehearsal.handwriting import write_down

if TYPE_CHECKING:
    import random

    from workbook.labfile.half import Ask
    from workbook.rehearsal.register import Register
    from workbook.rehearsal.seat import Seat


def misread(seat: Seat, ask: Ask, register: Register, chance: random.Random) -> None:
    """
    Misread an instrument once, and count what is said of it.

    Parameters
    ----------
    seat : Seat
        The rest of the sheet.
    ask : Ask
        A reading of the sheet.
    register : Register
        Where the verdict is counted.
    chance : random.Random
        Decides in which way it is misread; where there is none, nothing is tried.
    """
    quantity = seat.case.graph.quantities[ask.of or ""]
    if (instrument := quantity.instrument) is None:
        return
    ways = find_misreadings(instrument, quantity.from_base(seat.own(ask).value))
    if not ways:
        return
    made = chance.choice(ways)
    value = round_place(made.value, instrument.place, Ties.EVEN)
    text = write_down(value, quantity.unit, seat.case.convention.comma, chance)
    answer = seat.student.answer_with(ask, text)
    typing = seat.read(ask, text)
    if typing is None:
        return
    judged = answer, seat.judge.retry(ask, answer)
    register.judged(*judged)
    kinds = frozenset(way.kind for way in ways if way.fits(instrument, float(value)))
    is_alone = len(kinds) == 1 or kinds in TOGETHER
    is_unseen = seat.is_unseen(ask, typing)
    register.tally.unseen.add(is_hit=is_unseen)
    register.tally.twins.add(is_hit=not is_unseen and not is_alone)
    told = made.kind, say_together(kinds, (), seat.case.graph.lab.key.slips.says)
    is_shown = is_alone and not is_unseen
    register.expect_named(ask, told, judged, is_shown=is_shown)
