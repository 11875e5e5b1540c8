"""
Every lab that ships, in a real JupyterLab: each card of both notebooks is live.

One student has all the labs, and the gates are open. Each card is answered once, by
the mouse, with something that can be judged; most of it is wrong.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.answering import answer, read_word
from tests.support.command import run
from tests.support.exercise import EXERCISES, LABS, find_lab
from tests.support.issued import open_gates, students_of
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_lab
from tests.support.notebook_view import NotebookView
from workbook.front.saying import WORDS
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer
    from workbook.labfile.half import PublicHalf

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "a1"

_COURSE = """\
[course]
name   = "all-labs"
title  = "All labs"
labs   = {labs}
roster = "roster.csv"
"""

#: What is said of an answer that nobody judged, or that could not be read.
UNJUDGED = {
    WORDS[outcome]
    for outcome in (
        Outcome.UNREAD,
        Outcome.ASKED,
        Outcome.BLANK,
        Outcome.DIMENSION,
        Outcome.NOT_JUDGED,
    )
}


@pytest.fixture(scope="module")
def all_labs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Issue a course of all labs to one student, its gates open; return its file."""
    folder = tmp_path_factory.mktemp("labs")
    path = folder / "course" / "course.toml"
    path.parent.mkdir()
    labs = [(EXERCISES / name).as_posix() for name in LABS]
    path.write_text(_COURSE.format(labs=labs), encoding="utf-8")
    roster = f"student,name\n{STUDENT},Ada Moss\n"
    (path.parent / "roster.csv").write_text(roster, encoding="utf-8")
    assert run("issue", path, "--to", folder / "out").exit_code == 0
    open_gates(path, but="")
    return path


@pytest.fixture(scope="module")
def lab_server(
    all_labs: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[LabServer]:
    """Start a JupyterLab that serves the student's folders."""
    env = {"WORKBOOK_COURSE": str(all_labs)}
    home = tmp_path_factory.mktemp("home")
    with start_lab(students_of(all_labs), home, env=env) as server:
        yield server


def letter_of(public: PublicHalf) -> str:
    """Return a letter that the algebra pad of a lab understands."""
    pads = public.pads.values()
    return next((letter for pad in pads for letter, _ in pad.letters), "x")


@pytest.fixture(scope="module")
def view(lab_server: LabServer, browser: Browser) -> Iterator[NotebookView]:
    """Start JupyterLab in a page once: opening it anew takes longer than a lab."""
    first = f"{STUDENT}/{LABS[0]}/prelab.ipynb"
    opened = NotebookView(lab_server.open(browser, first))
    opened.close()
    yield opened
    opened.page.close()


@pytest.mark.parametrize("part", ["prelab", "postlab"])
@pytest.mark.parametrize("lab", LABS)
def test_every_card_of_a_lab_is_live_and_judged(
    view: NotebookView, lab: str, part: str
) -> None:
    public = find_lab(lab).public
    view.show(f"{STUDENT}/{lab}/{part}.ipynb")
    student = Keyboard(view.page)
    student.wait_until_live()
    cards = {ask.id: student.card(ask.id) for ask in getattr(public, part)}
    for card in cards.values():
        answer(card, f"{letter_of(public)} = M(CH3)")
    said = {step: read_word(card) for step, card in cards.items()}
    failures = view.page.locator(".jp-RenderedText[data-mime-type*=stderr]").count()
    view.close()
    assert {step for step, word in said.items() if word in UNJUDGED} == set()
    assert set(said.values()) <= set(WORDS.values())
    assert failures == 0
