"""The place to derive a molar mass."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from tests.front.stage import ALGEBRA
from workbook.front.algebra import AlgebraPad, show_lines, show_start
from workbook.front.bell import Bell
from workbook.wire.answer import Derived, Typed

if TYPE_CHECKING:
    from tests.front.stage import Browser


@pytest.fixture
def pad() -> AlgebraPad:
    return AlgebraPad(ALGEBRA, Bell())


def test_what_is_known_and_each_letter_stand_at_the_start() -> None:
    shown = show_start(ALGEBRA)
    assert "The oil is C3H5 with 3 acid parts." in shown
    assert "<dt>A</dt><dd>molar mass of the acid part, in g/mol</dd>" in shown
    assert "<code>A</code> is wanted" in shown


def test_lines_are_typeset_as_they_are_typed(pad: AlgebraPad, browser: Browser) -> None:
    browser.type(pad.area, "A = 6/3")
    assert r"\frac{6}{3}" in pad.typeset.value
    assert pad.typeset.value.count("<li>") == 1


def test_a_line_that_can_t_be_read_says_why_beside_itself(
    pad: AlgebraPad, browser: Browser
) -> None:
    browser.type(pad.area, "A = 2\nA = 2,5")
    second = pad.typeset.value.split("<li>")[2]
    assert "Use a point: 2.5" in second


def test_blank_lines_are_left_out(pad: AlgebraPad, browser: Browser) -> None:
    browser.type(pad.area, "\n 3A = 6 \n\nA = 2\n")
    assert pad.read() == Derived(("3A = 6", "A = 2"), "")


def test_a_verdict_points_at_a_line_and_lets_go_again(
    pad: AlgebraPad, browser: Browser
) -> None:
    browser.type(pad.area, "3A = 6\nA = 3")
    pad.point(1)
    assert "stops following here" in pad.typeset.value.split("<li")[2]
    assert "stops following here" not in pad.typeset.value.split("<li")[1]
    pad.point(None)
    assert "stops following here" not in pad.typeset.value


def test_earlier_working_comes_back(pad: AlgebraPad) -> None:
    pad.write(Derived(("3A = 6", "A = 2"), "2 g/mol"))
    pad.write(Typed("another kind"))
    assert pad.area.value == "3A = 6\nA = 2"
    assert pad.read() == Derived(("3A = 6", "A = 2"), "2 g/mol")


def test_no_lines_show_nothing() -> None:
    assert show_lines((), None) == ""


def test_what_is_typed_can_t_put_elements_into_the_page(
    pad: AlgebraPad, browser: Browser
) -> None:
    browser.type(pad.area, "<img src=x>\nA<b>")
    assert "<img" not in pad.typeset.value
    assert "<b>" not in pad.typeset.value


def test_a_change_and_enter_ring_the_bell(browser: Browser) -> None:
    rung: list[str] = []
    bell = Bell(lambda: rung.append("change"), lambda: rung.append("enter"))
    pad = AlgebraPad(ALGEBRA, bell)
    browser.type(pad.area, "A = 2")
    browser.enter(pad.entry.box)
    assert rung == ["change", "enter"]


@pytest.mark.service
def test_typesetting_loads_no_symbols() -> None:
    program = (
        "import sys; from workbook.front.algebra import show_lines; "
        "show_lines(('A = 6/3',), None); print('sympy' in sys.modules)"
    )
    done = subprocess.run(
        (sys.executable, "-c", program), capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"
