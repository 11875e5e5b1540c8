"""Rules on readings that students bring from their own bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import MatterError
from workbook.labfile.instrument import find_instrument
from workbook.labfile.reach import quantities_of, sources_of
from workbook.labfile.reading import explain_range
from workbook.labfile.schema import ReadingTable
from workbook.labfile.step import placed_steps
from workbook.measure.rounding import write
from workbook.relation.tree import names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.field import DrawRange
    from workbook.labfile.finding import Finding
    from workbook.labfile.instrument import Instrument
    from workbook.labfile.schema import LabFile, Reading


def own_readings_can_be_typed(file: LabFile) -> Iterator[Finding]:
    """
    Find own readings that clash with themselves, with a step, or with another reading.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        Any number for each reading and each step.
    """
    for key, reading in file.readings.items():
        if reading.own:
            yield from _clashing(key, reading)
        elif reading.window is not None:
            sentence = (
                "a window is for an own reading; add own = true, or leave it out."
            )
            yield ("readings", key, "window"), sentence
    yield from _known_too_early(file)
    yield from _never_asked(file)
    yield from _asked_too_late(file)
    yield from _widened(file)


def _clashing(key: str, reading: Reading) -> Iterator[Finding]:
    for name, value in (("draw", reading.draw), ("is", reading.relation)):
        if value is not None:
            sentence = (
                f"{key!r} is the student's own reading, so nobody can know it before; "
                f"leave {name} out, or own = true."
            )
            yield ("readings", key, name), sentence
    try:
        instrument = find_instrument(reading.instrument)
    except MatterError:
        return  # told by another rule
    if instrument.is_fixed:
        sentence = f"{reading.instrument!r} has one volume; there is nothing to type."
        yield ("readings", key, "own"), sentence
    elif reading.window is None:
        sentence = (
            "an own reading needs the window in which it can plausibly lie, written to "
            f"the instrument's last digit, in {instrument.unit.symbol}: "
            'window = "low .. high unit".'
        )
        yield ("readings", key, "own"), sentence
    elif sentence := _explain_window(reading.window, instrument):
        yield ("readings", key, "window"), sentence


def _explain_window(window: DrawRange, instrument: Instrument) -> str:
    if sentence := explain_range(window, instrument):
        return sentence
    shown = instrument.unit
    if window.unit == shown and window.place == instrument.place:
        return ""
    return (
        f"the window goes from {write(window.low)} to {write(window.high)} "
        f"{window.unit.symbol}; write both ends in {shown.symbol}, to the last digit "
        f"of {instrument.name!r}, {write(instrument.step)} {shown.symbol}."
    )


def _known_too_early(file: LabFile) -> Iterator[Finding]:
    """Find readings that would have to be shown before an own one is typed."""
    for key, reading in file.readings.items():
        if reading.own or reading.relation is None:
            continue
        for source in sorted(_behind(file, key)):
            if file.readings[source].own:
                sentence = (
                    f"{key!r} is shown, but follows from {source!r}, which students "
                    "read at their own bench, so it can't be known before; make it an "
                    "own reading as well, or let it follow from what is drawn."
                )
                yield ("readings", key, "is"), sentence


def _behind(file: LabFile, key: str) -> set[str]:
    """Return the readings that a reading follows from, however far."""
    found: set[str] = set()
    waiting = [key]
    while waiting:
        row = file.readings.get(name := waiting.pop()) or file.quantities.get(name)
        if row is not None and row.relation is not None:
            new = set(names(row.relation)) - found
            waiting.extend(new)
            found |= new
    return found & file.readings.keys()


def _never_asked(file: LabFile) -> Iterator[Finding]:
    asked = {s.of for _, s in placed_steps(file) if isinstance(s, ReadingTable)}
    for key, reading in file.readings.items():
        if reading.own and key not in asked:
            sentence = (
                f"no step asks for {key!r}, so nobody can type it. Add a step of kind "
                '= "reading".'
            )
            yield ("readings", key), sentence


def _asked_too_late(file: LabFile) -> Iterator[Finding]:
    """Find steps that stand before the own reading from which their answer follows."""
    for part in ("prelab", "postlab"):
        waiting: dict[tuple[str | int, ...], set[str]] = {}
        for place, step in placed_steps(file):
            if place[0] != part:
                continue
            if isinstance(step, ReadingTable):
                late = [at for at, behind in waiting.items() if step.of in behind]
                yield from (((*at, "of"), _say_late(step.of)) for at in late)
                continue
            asked = file.quantities.keys() & quantities_of(step)
            behind = {source for name in asked for source in sources_of(file, name)}
            own = {n for n in behind & file.readings.keys() if file.readings[n].own}
            waiting[place] = own


def _say_late(name: str) -> str:
    return (
        f"this follows from the own reading {name!r}, which is asked for only after "
        "it; ask for the reading first."
    )


def _widened(file: LabFile) -> Iterator[Finding]:
    for place, step in placed_steps(file):
        if not isinstance(step, ReadingTable) or step.widen is None:
            continue
        if step.of in file.readings and file.readings[step.of].own:
            sentence = "an own reading is held against its window ; leave widen out."
            yield (*place, "widen"), sentence
