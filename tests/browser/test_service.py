"""A service that goes away and comes back while a student works."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.axe import find_violations, load_axe
from tests.support.issued import LAB, students_of
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView
from tests.support.service import answer_with, serve
from workbook.client.way import WAY_FILE, encode_way
from workbook.solver.desk import Desk
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer
    from tests.support.service import Service

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "g9r4"

#: No pause is longer than this while the service is away for so short a time [ms].
PAUSE_MS = 30_000


@pytest.fixture
def folder(course: Path) -> Path:
    return students_of(course) / STUDENT / LAB


@pytest.fixture
def desk(course: Path) -> Desk:
    return Desk(CourseSource(course))


@pytest.fixture
def port(desk: Desk, folder: Path) -> int:
    """Return the port at which the student's folder says that the service is."""
    with serve(answer_with(desk.answer)) as service:
        (folder / WAY_FILE).write_bytes(encode_way(service.way))
        return service.port


@pytest.fixture
def student(server: LabServer, browser: Browser) -> Iterator[Keyboard]:
    page = server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb")
    load_axe(page)
    keys = Keyboard(page)
    keys.wait_until_live()
    yield keys
    page.close()


def answer(student: Keyboard, step: str, text: str) -> str:
    student.fill(student.card(step).locator("input[type=text]").last, text)
    return student.check(step)


def paths_of(service: Service) -> list[str]:
    return [path.rpartition("/")[2] for _, path, _ in service.seen]


def test_an_answer_waits_for_the_service_and_its_verdict_comes_by_itself(
    port: int, desk: Desk, student: Keyboard
) -> None:
    respond = answer_with(desk.answer)
    said = answer(student, "soap_mass", "11.5 g")
    assert said.startswith("Not judged yet. The checker can't be reached")
    assert "nothing answers at its address" in said
    card = student.card("soap_mass")
    for theme in ("light", "dark"):
        NotebookView(student.page).use_theme(theme)
        assert find_violations(card) == []
    with serve(respond, port) as service:
        card.get_by_text("Sent and judged at ").wait_for(timeout=PAUSE_MS)
        assert card.get_by_role("status").get_by_text("Sent and judged at ").count()
        assert student.says("soap_mass")[:10] != "Not judged"
        assert paths_of(service)[-2:] == ["health", "ask"]
        assert find_violations(card) == []
        student.tab_to(student.card("hand-in").get_by_role("button"))
        student.page.keyboard.press("Enter")
        student.card("hand-in").get_by_text("Submit this file.").wait_for()
