"""Own readings in a lab file, and what can clash with them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import KILN, Mistake, find_mistakes, make_lab

if TYPE_CHECKING:
    from pathlib import Path

WINDOW = 'window = "24.00 .. 26.00 g"'
STEP = """[[postlab]]
kind = "reading"
of = "crucible"
asks = "What does your empty crucible weigh?"
"""


def test_an_own_reading_is_asked_and_has_its_window(tmp_path: Path) -> None:
    public = make_lab(tmp_path, KILN).public
    assert list(public.windows) == ["crucible", "chalk_taken", "crucible_and_lime"]
    kinds = {ask.id: ask.kind for ask in public.postlab}
    assert (kinds["crucible"], kinds["oven"]) == ("own", "reading")


@pytest.mark.parametrize(
    ("new", "at", "says"),
    [
        (f'{WINDOW}\ndraw = "24.00 .. 26.00 g"', "draw =", "leave draw out"),
        (f'{WINDOW}\nis = "2 * planned_chalk"', "is =", "leave is out"),
        ("", "own = true", "needs the window in which it can plausibly lie"),
        ('window = "24 .. 26 g"', "window =", "0.01 g"),
        ('window = "24.0 .. 26.0 g"', "window =", "write both ends in g"),
        ('window = "24000 .. 26000 mg"', "window =", "write both ends in g"),
        ('window = "26.00 .. 24.00 g"', "window =", "26.00"),
        ('window = "24.00 .. 26.00 mL"', "window =", "the range is in mL"),
        ('window = "24.00 .. 900.00 g"', "window =", "shows 0 to 400 g"),
    ],
)
def test_an_own_reading_that_clashes_with_itself_is_told(
    tmp_path: Path, new: str, at: str, says: str
) -> None:
    (found,) = find_mistakes(tmp_path, (WINDOW, new), lab=KILN)
    assert found.at.startswith(at)
    assert says in found.sentence


def test_an_instrument_with_one_volume_leaves_nothing_to_type(tmp_path: Path) -> None:
    old = 'instrument = "thermometer, 250 °C"\ndraw = "105.0 .. 115.0 °C"'
    new = 'instrument = "volumetric pipette, 25 mL"\nown = true'
    (found,) = find_mistakes(tmp_path, (old, new), lab=KILN)
    assert found.at == "own = true"
    assert "has one volume" in found.sentence


def test_a_window_alone_makes_no_own_reading(tmp_path: Path) -> None:
    old = 'draw = "105.0 .. 115.0 °C"'
    new = f'{old}\nwindow = "105.0 .. 115.0 °C"'
    (found,) = find_mistakes(tmp_path, (old, new), lab=KILN)
    assert (found.at, "add own = true" in found.sentence) == (new.split("\n")[1], True)


def test_a_shown_reading_can_not_rest_on_an_own_one(tmp_path: Path) -> None:
    old = 'instrument = "thermometer, 250 °C"\ndraw = "105.0 .. 115.0 °C"'
    new = 'instrument = "balance, 0.01 g"\nis = "10 * lime_mass"'
    mistakes = find_mistakes(tmp_path, (old, new), lab=KILN)
    assert {each.at for each in mistakes} == {'is = "10 * lime_mass"'}
    assert "'crucible_and_lime', which students read at their own bench" in " ".join(
        each.sentence for each in mistakes
    )


def test_an_own_reading_must_be_asked_for(tmp_path: Path) -> None:
    old = "[readings.oven]"
    table = '[readings.pan]\nname = "pan"\ninstrument = "balance, 0.01 g"\nown = true'
    new = f"{table}\n{WINDOW}\n\n{old}"
    (found,) = find_mistakes(tmp_path, (old, new), lab=KILN)
    assert found == Mistake(
        "[readings.pan]",
        "no step asks for 'pan', so nobody can type it. Add a step of kind = "
        '"reading".',
    )


def test_an_own_reading_is_asked_for_before_what_follows_from_it(
    tmp_path: Path,
) -> None:
    last = 'asks = "What is your percent yield?"\n'
    mistakes = find_mistakes(tmp_path, (STEP, ""), (last, f"{last}\n{STEP}"), lab=KILN)
    assert {each.at for each in mistakes} == {
        'of = "lime_mass"',
        'of = "percent_yield"',
    }
    assert all("ask for the reading first" in each.sentence for each in mistakes)


def test_an_own_reading_has_no_tolerance_to_widen(tmp_path: Path) -> None:
    widened = f'{STEP}widen = "0.02 g"\n'
    (found,) = find_mistakes(tmp_path, (STEP, widened), lab=KILN)
    assert (found.at, "leave widen out" in found.sentence) == ('widen = "0.02 g"', True)


def test_a_gate_does_not_hold_own_readings_back(tmp_path: Path) -> None:
    gate = 'asks = "What amount of chalk do you plan for?"'
    oven = '[[postlab]]\nkind = "reading"\nof = "oven"'
    (found,) = find_mistakes(
        tmp_path,
        (gate, f"{gate}\ngate = true"),
        (oven, '[[postlab]]\nkind = "reading"\nof = "oven_2"'),
        ("[readings.oven]", "[readings.oven_2]"),
        ('draw = "105.0 .. 115.0 °C"', 'own = true\nwindow = "105.0 .. 115.0 °C"'),
        lab=KILN,
    )
    assert "holds nothing back" in found.sentence
