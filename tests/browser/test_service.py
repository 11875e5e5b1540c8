"""A service that is away, and comes while a student works."""

from __future__ import annotations

import socket
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, NamedTuple

import pytest

from tests.support.axe import find_violations, load_axe
from tests.support.issued import LAB, students_of
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView
from tests.support.recorded import name_record
from tests.support.serving import serve
from workbook.checker.door import make_sheet_token, reach_record
from workbook.client.way import WAY_FILE, Way, encode_way
from workbook.draw.key import read_key
from workbook.solver.source import KEY_FILE, CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "g9r4"

#: A service is up after some seconds; no pause before a next try is longer [ms].
PAUSE_MS = 60_000


class Place(NamedTuple):
    """Where a service will be, and its record."""

    port: int
    database: str


@pytest.fixture
def place(course: Path, tmp_path: Path) -> Place:
    """Let the student's folder name a service that does not run yet."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port = int(listener.getsockname()[1])
    caller = (CourseSource(course).name, STUDENT, LAB)
    key, until = read_key(course.parent / KEY_FILE), datetime.now(UTC)
    token = make_sheet_token(key, caller, until + timedelta(hours=1))
    content = encode_way(Way(f"http://127.0.0.1:{port}", token))
    (students_of(course) / STUDENT / LAB / WAY_FILE).write_bytes(content)
    return Place(port, name_record(tmp_path / "record.sqlite"))


@pytest.fixture
def student(server: LabServer, browser: Browser) -> Iterator[Keyboard]:
    page = server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb")
    load_axe(page)
    keys = Keyboard(page)
    keys.wait_until_live()
    yield keys
    page.close()


def test_an_answer_waits_for_the_service_and_its_verdict_comes_by_itself(
    place: Place, course: Path, student: Keyboard
) -> None:
    card, last = student.card("soap_mass"), student.card("hand-in")
    student.fill(card.locator("input[type=text]").last, "11.5 g")
    said = student.check("soap_mass")
    assert said.startswith("Not judged yet. The checker can't be reached")
    for theme in ("dark", "light"):
        NotebookView(student.page).use_theme(theme)
        assert find_violations(card) == []
    more = ("--port", str(place.port), "--database", place.database)
    with serve(course, *more) as service:
        status = card.get_by_role("status")
        status.get_by_text("Sent and judged at ").wait_for(timeout=PAUSE_MS)
        assert "Not judged" not in student.says("soap_mass")
        student.tab_to(last.get_by_role("button"))
        student.page.keyboard.press("Enter")
        last.get_by_text("The checker took it on ").wait_for()
        service.stop()
    record = reach_record(place.database)
    sheets = record.attempts(CourseSource(course).name, LAB)
    ((attempt,),) = sheets.values()
    assert attempt.step == "soap_mass"
    ((taken,),) = record.hand_ins(CourseSource(course).name, LAB).values()
    assert taken.at > attempt.at
