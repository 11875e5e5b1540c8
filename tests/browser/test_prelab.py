"""
The whole pre-lab of the olive-oil lab by keyboard in both themes, every step right.

What the student types is worked out by hand from the one value that is given, with the
density, the molar masses and the lye that the sheet prints.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.support.issued import LAB
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

#: A student for each theme.
STUDENTS = {"dark": "g9r4", "light": "j5v6"}

#: What is ticked, by the beginning of its text.
TICKED = {
    "lye_statements": ("H290", "H314"),
    "splash": ("Rinse at once",),
    "brine_waste": ("It is neutralised first",),
}

#: The factor of each chain, and whether it is turned over.
FACTORS = {
    "planned_oil_volume": ("density of olive", True),
    "planned_oil_amount": ("molar mass of olive", True),
    "lye_needed": ("sodium hydroxide to olive", False),
}

_GIVEN = re.compile(r"mass of olive oil in your plan: ([\d.]+) g")


@pytest.fixture(params=sorted(STUDENTS))
def student(
    request: pytest.FixtureRequest, server: LabServer, browser: Browser
) -> Iterator[Keyboard]:
    """Open the pre-lab in one of the themes."""
    page = server.open(browser, f"{STUDENTS[request.param]}/{LAB}/prelab.ipynb")
    view = NotebookView(page)
    view.use_theme(request.param)
    keyboard = Keyboard(page)
    keyboard.wait_until_live()
    yield keyboard
    view.use_theme("light")
    page.close()


def work_out(oil_g: float) -> dict[str, str]:
    """Return the results: 0.911 g/mL, 885.45 g/mol, 3 to 1, 40.00 g/mol, 20.0 %."""
    oil_mol = oil_g / 885.45
    lye_mol = 3 * oil_mol
    return {
        "planned_oil_volume": f"{oil_g / 0.911:#.3g} mL",
        "planned_oil_amount": f"{oil_mol:#.3g} mol",
        "lye_needed": f"{lye_mol:#.3g} mol",
        "lye_needed_volume": f"{lye_mol * 40.00 / 0.200 / 1.219:#.3g} mL",
    }


def tick(student: Keyboard) -> dict[str, str]:
    """Answer the choices, and return what is said of each."""
    says = {}
    for step, options in TICKED.items():
        for option in options:
            student.tab_to(student.card(step).get_by_label(option))
            student.page.keyboard.press("Space")
        says[step] = student.check(step)
    return says


def type_results(student: Keyboard, results: dict[str, str]) -> dict[str, str]:
    """Place factors, type results and press Enter; return what is said of each."""
    says = {}
    for step, result in results.items():
        if step in FACTORS:
            label, is_turned = FACTORS[step]
            student.place(step, label, turned=is_turned)
        student.fill(student.card(step).locator("input[type=text]").last, result)
        student.page.keyboard.press("Enter")
        says[step] = student.says(step)
    return says


def test_a_student_gets_the_whole_pre_lab_right_by_keyboard(student: Keyboard) -> None:
    found = _GIVEN.search(student.card("head").text_content() or "")
    assert found
    results = work_out(float(found[1]))
    says = {**tick(student), **type_results(student, results)}
    assert {
        step: said.partition(".")[0] for step, said in says.items()
    } == dict.fromkeys(says, "Agrees")
    number, unit = results["lye_needed"].split()
    read_as = student.card("lye_needed").get_by_text("Read as")
    assert f"{number} {unit}, 3 figures" in (read_as.text_content() or "")
    student.card("hand-in").get_by_text("7 of 7 steps right").wait_for()
