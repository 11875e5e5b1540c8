"""
One student's post-lab in a real JupyterLab, by keyboard, from the sheet to the mark.

The student turns the density over in the first calculation and goes on from there,
so that every later value is wrong, and follows.
"""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from tests.support.issued import GATED_STUDENT, read_answers, students_of
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView
from workbook.cli import main

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = GATED_STUDENT
#: Works in the dark theme, the gate open.
DARK_STUDENT = "b7k8"
LAB = "olive-oil-soap"

#: The lines of algebra that this student types: oil is three acid parts and C3H5.
LINES = ("oil = 3x + C3H5", "x = (885.45 - 41.07) / 3", "soap = x + Na")


#: What is ticked at the gate, by the beginning of its text.
SAFE = {
    "lye_statements": ("H290", "H314"),
    "splash": ("Rinse at once",),
    "brine_waste": ("It is neutralised first",),
}


def work_out(answers: dict[str, str]) -> dict[str, str]:
    """
    Return what the student types: by hand, from the readings, density turned over.

    Molar masses and densities are those that the sheet prints.
    """
    oil_ml, lye_ml = (
        float(answers[n].split()[0]) for n in ("oil_volume", "lye_volume")
    )
    dish, full = (float(answers[n].split()[0]) for n in ("dish", "dish_and_soap"))
    oil_g = oil_ml / 0.911
    oil_mol = oil_g / 885.45
    lye_mol = lye_ml * 1.219 * 0.200 / 40.00
    yield_g = 3 * oil_mol * 304.45
    left_mol = lye_mol - 3 * oil_mol
    return {
        "oil_mass": f"{oil_g:#.3g} g",
        "oil_amount": f"{oil_mol:#.3g} mol",
        "lye_amount": f"{lye_mol:#.3g} mol",
        "soap.molar_mass": "304.45 g/mol",
        "soap_amount": f"{3 * oil_mol:#.3g} mol",
        "theoretical_yield": f"{yield_g:#.3g} g",
        "soap_mass": f"{full - dish:.2f} g",
        "percent_yield": f"{100 * (full - dish) / yield_g:#.3g} %",
        "lye_left": f"{left_mol:#.3g} mol",
        "acid_mass": f"{left_mol / 3 * 210.14:#.3g} g",
    }


def pass_gate(server: LabServer, browser: Browser) -> None:
    """See that the readings are held back, and answer the questions at the gate."""
    after = Keyboard(server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb"))
    after.wait_until_live()
    held = after.page.get_by_text("The readings are not shown yet")
    held.wait_for(state="attached")
    assert after.card("dish").locator("input[type=text]").count() == 0
    after.page.close()
    before = Keyboard(server.open(browser, f"{STUDENT}/{LAB}/prelab.ipynb"))
    before.wait_until_live()
    for step, options in SAFE.items():
        for option in options:
            before.tab_to(before.card(step).get_by_label(option))
            before.page.keyboard.press("Space")
        assert before.check(step).startswith("Agrees.")
    before.page.close()


def answer_all(student: Keyboard, answers: dict[str, str]) -> dict[str, str]:
    """Answer every step in the order of the notebook, and return what was said."""
    typed = work_out(answers)
    says = {
        step: type_answer(student, step, answers[step])
        for step in ("oil_volume", "lye_volume", "dish", "dish_and_soap")
    }
    for step in ("oil_mass", "oil_amount"):
        label = {"oil_mass": "density of olive", "oil_amount": "molar mass of olive"}
        student.place(step, label[step], turned=True)
        says[step] = type_answer(student, step, typed[step])
    says["lye_amount"] = type_answer(student, "lye_amount", typed["lye_amount"])
    student.tab_to(student.card("limiting").get_by_role("radio").first)
    student.page.keyboard.press("Space")
    says["limiting"] = student.check("limiting")
    lines = student.card("soap.molar_mass").locator("textarea")
    student.fill(lines, "\n".join(LINES))
    says["soap.molar_mass"] = type_answer(
        student, "soap.molar_mass", typed["soap.molar_mass"]
    )
    student.place("soap_amount", "sodium oleate to olive", turned=False)
    for step in (
        "soap_amount",
        "theoretical_yield",
        "soap_mass",
        "percent_yield",
        "lye_left",
        "acid_mass",
    ):
        says[step] = type_answer(student, step, typed[step])
    return says


def type_answer(student: Keyboard, step: str, text: str) -> str:
    """Type a result, check it, and return what the card says."""
    student.fill(student.card(step).locator("input[type=text]").last, text)
    return student.check(step)


def test_a_student_works_by_keyboard_and_is_marked_by_hand_worked_points(
    server: LabServer, browser: Browser, course: Path, tmp_path: Path
) -> None:
    pass_gate(server, browser)
    student = Keyboard(server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb"))
    student.wait_until_live()
    says = answer_all(student, read_answers(course, STUDENT))
    check_says(says)
    student.restart()
    check_back(student, says)
    hand_in = student.card("hand-in")
    student.tab_to(hand_in.get_by_role("button", name="Write the hand-in"))
    student.page.keyboard.press("Enter")
    hand_in.get_by_text(f"{STUDENT}.handin.json").wait_for()
    student.page.close()
    assert mark(course, tmp_path / "marks") == ("31", "65")


def test_the_post_lab_is_worked_by_keyboard_in_the_dark_theme(
    server: LabServer, browser: Browser, course: Path
) -> None:
    student = Keyboard(server.open(browser, f"{DARK_STUDENT}/{LAB}/postlab.ipynb"))
    view = NotebookView(student.page)
    view.use_theme("dark")
    student.wait_until_live()
    check_says(answer_all(student, read_answers(course, DARK_STUDENT)))
    view.use_theme("light")
    student.page.close()


def check_says(says: dict[str, str]) -> None:
    """See that the first mistake is named, and that what rests on it follows."""
    assert "upside down" in says["oil_mass"]
    assert says["oil_mass"].startswith("A slip.")
    following = (
        "oil_amount",
        "soap_amount",
        "theoretical_yield",
        "percent_yield",
        "lye_left",
        "acid_mass",
    )
    for step in following:
        assert says[step].startswith("Follows on."), (step, says[step])
        assert "mass of olive oil" in says[step]
    for step in says.keys() - {"oil_mass", *following}:
        assert says[step].startswith("Agrees."), (step, says[step])


def check_back(student: Keyboard, says: dict[str, str]) -> None:
    """See that every card says again what it said before the restart."""
    for step, sentence in says.items():
        student.card(step).locator(".wb-word").wait_for(state="attached")
        assert student.says(step) == sentence


def mark(course: Path, to: Path) -> tuple[str, str]:
    """
    Mark what was handed in, and return this student's points and their total.

    By hand, from the course's scheme: readings 4 x 1, chains 3 x 3, numbers 5 x 2
    and the percent yield 3, the choice 1, the algebra 4, texts 2 x 2: 35 after the
    lab. Before it choices 3 x 1, chains 3 x 3, a number 2, the table of reagents 4,
    matchings 3 x 2, the order 2, the mechanism 3, the prediction 1: 30. The student
    loses the chain with the density turned over, 3, the texts, 4, and everything
    before the lab but the three choices at the gate, 27: 31 of 65.
    """
    handins = students_of(course)
    command = ["mark", str(course), "--handins", str(handins), "--to", str(to)]
    marked = CliRunner().invoke(main, command)
    assert marked.exit_code == 0, marked.output
    with (to / "marks.csv").open(encoding="utf-8", newline="") as file:
        row = next(r for r in csv.DictReader(file) if r["student"] == STUDENT)
    return row["points"], row["out_of"]
