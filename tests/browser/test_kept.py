"""
What a student typed and did not check yet, after a restart and after a closed tab.

The text is typed key by key, and nothing in the page is waited for afterwards but the
second that a hand needs to close a tab.
"""

from __future__ import annotations

import os
import signal
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.support.issued import LAB, students_of
from tests.support.keyboard import Keyboard

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from playwright.sync_api import Browser, Locator

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "t6h5"

#: As fast as somebody closes a tab after the last key [ms].
HAND_MS = 1000

LINES = "oil = C3H5 + 3x\nsoap = x +"


@pytest.fixture
def open_tab(server: LabServer, browser: Browser) -> Iterator[Callable[[], Keyboard]]:
    """Open the post-lab in a tab of its own, each time it is asked."""
    opened: list[Keyboard] = []

    def open_notebook() -> Keyboard:
        page = server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb")
        opened.append(Keyboard(page))
        opened[-1].wait_until_live()
        return opened[-1]

    yield open_notebook
    for student in opened:
        student.page.close()


def find_box(student: Keyboard, step: str) -> Locator:
    """Return the box for the result of a step."""
    return student.card(step).locator("input[type=text]").last


def find_lines(student: Keyboard) -> Locator:
    """Return the area for lines of algebra."""
    return student.card("soap.molar_mass").locator("textarea")


def find_kernel(folder: Path) -> int:
    """Return the process number of the kernel that runs in a folder."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):
            command = (process / "cmdline").read_bytes()
            if b"ipykernel" in command and (process / "cwd").readlink() == folder:
                found.append(int(process.name))
    (kernel,) = found
    return kernel


def test_unchecked_text_is_there_after_the_kernel_was_restarted(
    open_tab: Callable[[], Keyboard],
) -> None:
    student = open_tab()
    student.place("oil_mass", "density of olive", turned=True)
    student.fill(find_lines(student), LINES)
    student.fill(find_box(student, "soap_mass"), "11.5")
    student.tab_to(student.card("soap_mass").get_by_role("button"))
    student.page.wait_for_timeout(HAND_MS)
    student.restart()
    assert find_box(student, "soap_mass").input_value() == "11.5"
    assert find_lines(student).input_value() == LINES
    row = student.card("oil_mass").get_by_role("button", name="Turn factor 1 over")
    row.wait_for(state="attached")
    assert student.card("soap_mass").locator(".wb-word").count() == 0


def test_unchecked_text_is_there_when_a_closed_tab_is_opened_again(
    open_tab: Callable[[], Keyboard],
) -> None:
    student = open_tab()
    student.fill(find_box(student, "lye_left"), "0.0123 m")
    student.page.wait_for_timeout(HAND_MS)
    student.page.close()
    again = open_tab()
    assert find_box(again, "lye_left").input_value() == "0.0123 m"
    again.fill(find_box(again, "lye_left"), "lots")
    assert again.check("lye_left").startswith("Not understood.")


def test_text_typed_while_the_kernel_is_busy_outlives_its_tab(
    open_tab: Callable[[], Keyboard], course: Path
) -> None:
    student = open_tab()
    kernel = find_kernel(students_of(course) / STUDENT / LAB)
    os.kill(kernel, signal.SIGSTOP)
    try:
        student.fill(find_box(student, "percent_yield"), "86.0 %")
        student.page.wait_for_timeout(HAND_MS)
        student.page.close()
    finally:
        os.kill(kernel, signal.SIGCONT)
    again = open_tab()
    assert find_box(again, "percent_yield").input_value() == "86.0 %"


def test_two_tabs_on_one_notebook_lose_nothing(
    open_tab: Callable[[], Keyboard],
) -> None:
    one, two = open_tab(), open_tab()
    one.fill(find_box(one, "oil_amount"), "0.0147")
    two.fill(find_box(two, "acid_mass"), "0.5")
    two.page.wait_for_timeout(HAND_MS)
    for tab in (one, two):
        tab.page.close()
    again = open_tab()
    assert find_box(again, "oil_amount").input_value() == "0.0147"
    assert find_box(again, "acid_mass").input_value() == "0.5"
