"""
The lab that the guide for authors makes, played through in a real Chromium.

One student passes the gate, answers every card of both notebooks rightly, hands in,
and is marked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.command import rows, run
from tests.support.guide import write_guided_lab
from tests.support.issued import read_answers, students_of
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_lab
from tests.support.notebook_view import NotebookView
from tests.support.playing import Play, answer_card, hand_in

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT, LAB = "a1", "precipitated-chalk"

_COURSE = f"""\
[course]
name   = "guided"
title  = "From the guide"
labs   = ["{LAB}"]
roster = "roster.csv"
"""

PRELAB = ("splash", "left_over", "planned_amount", "needed_volume")
POSTLAB = (
    *("calcium_chloride_mass", "soda_volume", "dish", "dish_and_product"),
    *("calcium_chloride_amount", "soda_amount", "limiting", "theoretical_yield"),
    *("product_mass", "percent_yield", "soda_left", "acid_volume"),
)

WRITTEN = {
    "observations": "White flakes fell at once.",
    "discussion": "Some of it stayed on the filter: 0.1 g less.",
}

TICKED = {
    "splash": "Rinse at once",
    "left_over": "Into the waste stream",
    "limiting": "calcium chloride",
}

#: A mass by a molar mass; a volume of the solution times what stands on its bottle.
PLACED = {
    "planned_amount": ("molar mass of calcium chloride", True),
    "calcium_chloride_amount": ("molar mass of calcium chloride", True),
    "soda_amount": ("concentration of soda solution", False),
}


@pytest.fixture(scope="module")
def guided(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Issue a course of this lab to one student, and return its file."""
    folder = tmp_path_factory.mktemp("guided")
    lab = write_guided_lab(folder / "course" / LAB)
    assert run("build", lab).exit_code == 0
    path = lab.parent / "course.toml"
    path.write_text(_COURSE, encoding="utf-8")
    roster = f"student,name\n{STUDENT},Ada Moss\n"
    (lab.parent / "roster.csv").write_text(roster, encoding="utf-8")
    assert run("issue", path, "--to", folder / "out").exit_code == 0
    return path


@pytest.fixture(scope="module")
def said(
    guided: Path, browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, str]:
    """Play it through, and return what was said of each step."""
    typed = read_answers(guided, STUDENT)
    play = Play(TICKED, PLACED, typed, WRITTEN)
    env = {"WORKBOOK_COURSE": str(guided)}
    words = {}
    home = tmp_path_factory.mktemp("home")
    with start_lab(students_of(guided), home, env=env) as server:
        page = server.open(browser, f"{STUDENT}/{LAB}/prelab.ipynb")
        student, view = Keyboard(page), NotebookView(page)
        for part, steps in (("prelab", PRELAB), ("postlab", (*POSTLAB, *WRITTEN))):
            view.show(f"{STUDENT}/{LAB}/{part}.ipynb")
            student.wait_until_live()
            for step in steps:
                words[step] = answer_card(student.card(step), step, play)
            if part == "prelab":
                view.close()
        hand_in(student.card("hand-in"), page, f"{STUDENT}.handin.json")
        page.close()
    return words


def test_every_right_answer_agrees(said: dict[str, str]) -> None:
    texts = {step: said.pop(step) for step in WRITTEN}
    assert said == dict.fromkeys((*PRELAB, *POSTLAB), "Agrees.")
    assert texts == dict.fromkeys(WRITTEN, "Kept.")


def test_the_hand_in_is_marked(
    guided: Path, said: dict[str, str], tmp_path: Path
) -> None:
    assert said
    marked = run("mark", guided, "--handins", students_of(guided), "--to", tmp_path)
    assert marked.exit_code == 0, marked.output
    (row,) = rows(tmp_path / "marks.csv")
    # By the usual scheme: 4 readings of 1, 3 chains of 3, 6 numbers of 2, 3 choices of
    # 1: 28. Two texts of 2 wait for a person.
    assert (row["points"], row["out_of"]) == ("28", "32")
