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
    from collections.abc import Iterator, Mapping

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

#: Of several that may belong to a row, the one that does.
BELONGS = {"other_statements": ("citric acid monohydrate: H319",)}

#: What is chosen from each list of a table.
CHOSEN = {
    "protection": {
        "A splash of lye": "Closed goggles",
        "Drops of lye": "Gloves that keep",
        "A flask that comes": "Tongs",
    },
    "streams": {
        "Olive oil that": "Non-halogenated",
        "The pressed-out": "Aqueous",
        "Filter paper": "Solid",
    },
}

#: The hose comes off before the water is turned off, lest it is sucked back.
ORDERS = {
    "pressing": (
        "Lay the filter paper",
        "Turn the water of the pump on",
        "Pour the salted-out soap",
        "Press the cake",
        "Rinse the cake",
        "Take the vacuum hose off",
        "Turn the water of the pump off",
        "Lift the soap",
    ),
    "saponification": ("Hydroxide adds", "The double bond", "The acid gives"),
}


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


def read_given(student: Keyboard, label: str) -> float:
    """Return a value that the head of the page gives."""
    told = student.card("head").text_content() or ""
    found = re.search(rf"{re.escape(label)}: ([\d.]+) ", told)
    assert found, told
    return float(found[1])


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


def work_out_trial(oil_g: float, lye_ml: float) -> tuple[dict[str, str], str]:
    """Return the cells of the table, and which of the two runs out first."""
    oil_mol, lye_mol = oil_g / 885.45, lye_ml * 1.219 * 0.200 / 40.00
    cells = {
        "olive oil, amount": f"{oil_mol:#.3g} mol",
        "sodium hydroxide, amount": f"{lye_mol:#.3g} mol",
        "sodium hydroxide, equivalents": f"{lye_mol / oil_mol:#.3g}",
    }
    return cells, "olive oil" if 3 * oil_mol < lye_mol else "sodium hydroxide"


def tick(student: Keyboard, ticked: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    """Tick what belongs, and return what is said of each step."""
    says = {}
    for step, options in ticked.items():
        for option in options:
            student.tab_to(student.card(step).get_by_label(option))
            student.page.keyboard.press("Space")
        says[step] = student.check(step)
    return says


def fill_trial(student: Keyboard) -> str:
    """Fill the table of the trial, and return what is said of it."""
    oil_g = read_given(student, "mass of olive oil for the trial in a small flask")
    lye_ml = read_given(student, "volume of lye for the trial in a small flask")
    cells, least = work_out_trial(oil_g, lye_ml)
    card = student.card("trial")
    for label, text in cells.items():
        student.fill(card.get_by_label(label), text)
    student.tab_to(card.get_by_label("Which of them runs out first?"))
    student.page.keyboard.type(least)
    return student.check("trial")


def choose(student: Keyboard) -> dict[str, str]:
    """Choose from the lists of each table, and return what is said of it."""
    says = {}
    for step, rows in CHOSEN.items():
        for row, option in rows.items():
            student.tab_to(student.card(step).get_by_label(row))
            student.page.keyboard.type(option)
        says[step] = student.check(step)
    return says


def put_in_order(student: Keyboard) -> dict[str, str]:
    """Place the cards of each procedure, and return what is said of it."""
    says = {}
    for step, cards in ORDERS.items():
        for number, text in enumerate(cards, start=1):
            student.tab_to(student.card(step).get_by_role("button", name=text))
            student.page.keyboard.press("Enter")
            placed = student.card(step).get_by_role("button", name=f"Take {number} out")
            placed.wait_for(state="attached")
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


def answer_all(student: Keyboard) -> dict[str, str]:
    """Answer the whole pre-lab in its order, and return what is said of each step."""
    results = work_out(read_given(student, "mass of olive oil in your plan"))
    says = {**tick(student, TICKED), **type_results(student, results)}
    says["trial"] = fill_trial(student)
    says |= {**tick(student, BELONGS), **choose(student), **put_in_order(student)}
    student.tab_to(student.card("salting_out").get_by_role("radio").first)
    student.page.keyboard.press("Space")
    says["salting_out"] = student.check("salting_out", "Commit to this")
    return says


def test_a_student_gets_the_whole_pre_lab_right_by_keyboard(student: Keyboard) -> None:
    says = answer_all(student)
    first = {step: said.partition(".")[0] for step, said in says.items()}
    agreed = dict.fromkeys(says, "Agrees")
    assert first == {**agreed, "salting_out": "Your word stands"}
    told = student.card("hand-in").get_by_text("steps done")
    assert told.text_content() == f"{len(says)} of {len(says)} steps done"
    read_as = student.card("lye_needed_volume").get_by_text("Read as").text_content()
    assert "mL, 3 figures" in (read_as or "")
