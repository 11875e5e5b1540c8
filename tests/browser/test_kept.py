"""
What a student typed and did not check yet, after a restart and after a closed tab.

The text is typed key by key, and nothing in the page is waited for afterwards but the
second that a hand needs to close a tab.
"""

from __future__ import annotations

import json
import os
import signal
from contextlib import contextmanager, suppress
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

#: Where something is chosen, by its step, and with which key.
CHOICES = (
    ("trial", "select", "ArrowDown"),
    ("other_statements", "[type=checkbox]", "Space"),
    ("salting_out", "[type=radio]", "Space"),
)

_IS_CHOSEN = "place => place.checked || place.selectedIndex > 0"

LINES = "oil = C3H5 + 3x\nsoap = x +"


@pytest.fixture
def open_tab(server: LabServer, browser: Browser) -> Iterator[Callable[..., Keyboard]]:
    """Open one part in a tab of its own, each time it is asked."""
    opened: list[Keyboard] = []

    def open_notebook(part: str = "postlab") -> Keyboard:
        page = server.open(browser, f"{STUDENT}/{LAB}/{part}.ipynb")
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


def find_kernels(folder: Path) -> list[int]:
    """Return the process numbers of the kernels that run in a folder."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):
            command = (process / "cmdline").read_bytes()
            if b"ipykernel" in command and (process / "cwd").readlink() == folder:
                found.append(int(process.name))
    return sorted(found)


def list_drafts(folder: Path, step: str) -> list[str]:
    """Return what was written to the record of a text that was not kept yet."""
    (record,) = folder.glob("*-postlab.attempts.jsonl")
    lines = [json.loads(line) for line in record.read_bytes().splitlines()]
    return [line["answer"]["text"] for line in lines if line.get("step") == step]


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


@contextmanager
def held_up(*kernels: int) -> Iterator[None]:
    """Let kernels do nothing for a while; one may be ended meanwhile."""
    for kernel in kernels:
        os.kill(kernel, signal.SIGSTOP)
    try:
        yield
    finally:
        for kernel in kernels:
            with suppress(ProcessLookupError):
                os.kill(kernel, signal.SIGCONT)


def test_what_is_typed_while_the_kernel_is_busy_outlives_its_tab(
    open_tab: Callable[..., Keyboard], course: Path
) -> None:
    after, before = open_tab(), open_tab("prelab")
    folder = students_of(course) / STUDENT / LAB
    with held_up(*find_kernels(folder)):
        after.fill(find_box(after, "percent_yield"), "86.0 %")
        before.fill(find_box(before, "trial"), "3.21")
        for step, kind, key in CHOICES:
            before.tab_to(before.card(step).locator(kind).first)
            before.page.keyboard.press(key)
        before.page.wait_for_timeout(HAND_MS)
        for tab in (after, before):
            tab.page.close()
    assert find_box(open_tab(), "percent_yield").input_value() == "86.0 %"
    again = open_tab("prelab")
    assert find_box(again, "trial").input_value() == "3.21"
    for step, kind, _ in CHOICES:
        assert again.card(step).locator(kind).first.evaluate(_IS_CHOSEN), step


def test_what_a_kernel_never_heard_is_told_to_the_next(
    open_tab: Callable[..., Keyboard], course: Path
) -> None:
    student = open_tab()
    with held_up(*find_kernels(students_of(course) / STUDENT / LAB)):
        student.fill(find_box(student, "theoretical_yield"), "13.4 g")
        student.tab_to(student.card("theoretical_yield").get_by_role("button"))
        student.restart()
    box = find_box(student, "theoretical_yield")
    student.page.wait_for_timeout(HAND_MS)
    assert box.input_value() == "13.4 g"


def test_a_text_is_written_down_after_a_pause_and_not_at_every_key(
    open_tab: Callable[..., Keyboard], course: Path
) -> None:
    student = open_tab()
    text = "The soap stayed soft, and smelt of olives. " * 2
    student.fill(student.card("discussion").locator("textarea"), text)
    drafts: list[str] = []
    while text not in drafts:
        student.page.wait_for_timeout(HAND_MS)
        drafts = list_drafts(students_of(course) / STUDENT / LAB, "discussion")
    assert drafts[-1] == text
    assert len(drafts) < len(text) / 4


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
