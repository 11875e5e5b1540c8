"""What a student sees of an instrument, from a lab file to the sheet."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.support.eye import look, parse, read_digits, read_scale, read_words
from tests.support.lab import CHALK, edit, make_graph, make_lab
from workbook.draw.key import CourseKey
from workbook.errors import AuthorError, MatterError
from workbook.labfile.course import Conventions
from workbook.labfile.instrument import Instrument, find_instrument
from workbook.solver.bench import prepare
from workbook.solver.picture import see
from workbook.wire.sheet import ReadingStep, Sheet, SheetId

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case

#: A titration, a temperature and a pipette, beside what the chalk lab reads.
READINGS = """
[readings.before]
name = "burette before"
instrument = "burette, 50 mL"
draw = "0.00 .. 2.00 mL"

[readings.after]
name = "burette after"
instrument = "burette, 50 mL"
is = "before + titre"

[hidden.titre]
draw = "18.00 .. 27.00 mL"

[readings.warmth]
name = "temperature"
instrument = "thermometer, 110 °C"
draw = "-5.0 .. 40.0 °C"

[readings.portion]
name = "volume of the portion"
instrument = "volumetric pipette, 25 mL"

[quantities.delivered]
unit = "mL"
is = "after - before"

[readings.dish]"""

STEPS = "".join(
    f'[[postlab]]\nkind = "reading"\nof = "{name}"\nasks = "Read it."\n\n'
    for name in ("before", "after", "warmth", "portion")
)
STEPS += '[[postlab]]\nkind = "number"\nof = "delivered"\nasks = "How much?"\n\n'

LAB = edit(
    CHALK, ("\n[readings.dish]", READINGS), ("[[postlab]]", f"{STEPS}[[postlab]]")
)


def show(folder: Path, student: str, text: str = LAB) -> tuple[Sheet, Case]:
    """Draw a student's values, and write their sheet."""
    bench = prepare(make_lab(folder, text), Conventions())
    (case,) = bench.draw(CourseKey(bytes(32)), [student])
    return bench.show(SheetId("c", "chalk-in-acid", 1, student), case), case


def reading_of(sheet: Sheet, name: str) -> ReadingStep:
    step = sheet.step(name)
    assert isinstance(step, ReadingStep)
    return step


@pytest.mark.parametrize("student", ["ada", "ben", "cem"])
def test_picture_and_words_of_a_sheet_give_the_value_that_was_drawn(
    tmp_path: Path, student: str
) -> None:
    sheet, case = show(tmp_path, student)
    for name in ("acid_volume", "before", "after", "warmth"):
        quantity, step = case.graph.quantities[name], reading_of(sheet, name)
        instrument = instrument_of(case, name)
        value = quantity.from_base(case.values[name])
        seen = look(instrument, parse(step.picture), "wb-whole")
        near = float(instrument.division) / 5
        assert read_scale(seen) == pytest.approx(value, abs=near)
        assert float(read_words(instrument, step.seen)) == pytest.approx(value)


def instrument_of(case: Case, name: str) -> Instrument:
    instrument = case.graph.quantities[name].instrument
    assert instrument is not None
    return instrument


def test_the_delivered_volume_is_the_difference_of_two_pictures(tmp_path: Path) -> None:
    sheet, case = show(tmp_path, "ada")
    burette = find_instrument("burette, 50 mL")
    before, after = (
        read_words(burette, reading_of(sheet, n).seen) for n in ("before", "after")
    )
    assert float(after - before) == pytest.approx(case.values["delivered"])
    assert after - before >= 18


def test_a_display_shows_what_was_drawn(tmp_path: Path) -> None:
    sheet, case = show(tmp_path, "ada")
    digits = read_digits(reading_of(sheet, "dish").picture)
    assert float(digits) == pytest.approx(case.values["dish"])
    assert reading_of(sheet, "dish").seen == f"{digits} g"


def test_a_pipette_with_a_ring_has_its_volume_for_everybody(tmp_path: Path) -> None:
    for student in ("ada", "ben"):
        _, case = show(tmp_path, student)
        assert case.values["portion"] == 25


def test_a_pipette_with_a_ring_is_given_no_range(tmp_path: Path) -> None:
    ranged = 'instrument = "volumetric pipette, 25 mL"\ndraw = "24 .. 25 mL"'
    text = edit(LAB, ('instrument = "volumetric pipette, 25 mL"', ranged))
    with pytest.raises(AuthorError, match="has one volume; leave draw and is out"):
        make_lab(tmp_path, text)


@pytest.mark.parametrize("name", ["acid_volume", "before", "after", "warmth"])
def test_no_word_of_a_sheet_states_what_a_scale_shows(
    tmp_path: Path, name: str
) -> None:
    sheet, case = show(tmp_path, "ada")
    value = Decimal(
        str(round(case.graph.quantities[name].from_base(case.values[name]), 2))
    )
    step = msgspec.structs.replace(reading_of(sheet, name), picture="")
    shown = str(value.quantize(instrument_of(case, name).step))
    assert shown not in msgspec.json.encode(step).decode()


def test_a_quantity_without_an_instrument_is_not_seen(tmp_path: Path) -> None:
    quantity = make_graph(tmp_path).quantities["planned_chalk"]
    with pytest.raises(ValueError, match="not read off an instrument"):
        see(quantity, 2.0)


def test_a_value_off_the_scale_is_refused(tmp_path: Path) -> None:
    quantity = make_graph(tmp_path).quantities["acid_volume"]
    with pytest.raises(MatterError, match="lies off the scale of 'cylinder, 50 mL'"):
        see(quantity, 50.1)
