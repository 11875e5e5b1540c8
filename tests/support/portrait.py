"""
The picture at the head of the README: a judged card, taken from a real browser.

Run it from the top of the repository: ``python -m tests.support.portrait``.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.support.issued import GATED_STUDENT, issue_course, open_gates, students_of
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_chromium, start_lab

PICTURE = Path(".pictures", "card.png")
STUDENT = "m7q2"
LAB = "olive-oil-soap"


def take(to: Path, home: Path) -> None:
    """
    Judge a chain with a factor upside down, and take its card's picture.

    Parameters
    ----------
    to : Path
        The picture's file.
    home : Path
        A folder for the course and the browser's own files.
    """
    course = issue_course(home)
    open_gates(course, but=GATED_STUDENT)
    env = {"WORKBOOK_COURSE": str(course)}
    with (
        start_chromium() as browser,
        start_lab(students_of(course), home, env=env) as server,
    ):
        page = server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb")
        student = Keyboard(page)
        student.wait_until_live()
        student.place("oil_mass", "density of olive", turned=True)
        card = student.card("oil_mass")
        student.fill(card.locator("input[type=text]").last, "13.9 g")
        student.check("oil_mass")
        page.keyboard.press("Shift+Tab")
        page.wait_for_timeout(1000)
        to.parent.mkdir(exist_ok=True)
        card.screenshot(path=to)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        take(PICTURE, Path(folder))
