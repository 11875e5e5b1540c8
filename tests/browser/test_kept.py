"""
What a student typed and did not check yet, after a restart and after a closed tab.

The text is typed key by key, and nothing in the page is waited for afterwards but the
second that a hand needs to close a tab.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.issued import LAB
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


def test_unchecked_text_is_there_after_the_kernel_was_restarted(
    open_tab: Callable[[], Keyboard],
) -> None:
    student = open_tab()
    student.fill(find_box(student, "dish"), "46.5")
    student.place("oil_mass", "density of olive", turned=True)
    student.fill(find_lines(student), LINES)
    student.page.wait_for_timeout(HAND_MS)
    student.restart()
    assert find_box(student, "dish").input_value() == "46.5"
    assert find_lines(student).input_value() == LINES
    row = student.card("oil_mass").get_by_role("button", name="Turn factor 1 over")
    row.wait_for(state="attached")
    assert student.card("dish").locator(".wb-word").count() == 0


def test_unchecked_text_is_there_when_a_closed_tab_is_opened_again(
    open_tab: Callable[[], Keyboard],
) -> None:
    student = open_tab()
    student.fill(find_box(student, "lye_volume"), "11.1 m")
    student.page.wait_for_timeout(HAND_MS)
    student.page.close()
    again = open_tab()
    assert find_box(again, "lye_volume").input_value() == "11.1 m"
    again.fill(find_box(again, "lye_volume"), "lots")
    assert again.check("lye_volume").startswith("Not understood.")


def test_two_tabs_on_one_notebook_show_the_same_and_lose_nothing(
    open_tab: Callable[[], Keyboard],
) -> None:
    one, two = open_tab(), open_tab()
    one.fill(find_box(one, "soap_mass"), "11.5")
    two.fill(find_box(two, "acid_mass"), "0.5")
    two.page.wait_for_timeout(HAND_MS)
    for tab in (one, two):
        tab.page.close()
    again = open_tab()
    assert find_box(again, "soap_mass").input_value() == "11.5"
    assert find_box(again, "acid_mass").input_value() == "0.5"
