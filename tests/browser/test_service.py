"""A service that is away, ends, hangs and loses its database while a student works."""

from __future__ import annotations

import signal
import socket
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, NamedTuple

import pytest

from tests.support.axe import find_violations, load_axe
from tests.support.issued import LAB, students_of
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView
from tests.support.postgres import need_programs, run_server
from tests.support.recorded import list_attempts
from tests.support.serving import serve
from workbook.checker.door import make_sheet_token, reach_record
from workbook.client.way import WAY_FILE, Way, encode_way
from workbook.draw.key import read_key
from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.answer import Typed

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer
    from tests.support.postgres import Server

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "g9r4"

#: Whose card is answered again and again.
STEP = "soap_mass"

#: A service is up after some seconds; no pause before a next try is longer [ms].
PAUSE_MS = 60_000


class Place(NamedTuple):
    """Where a service will be, and its record."""

    port: int
    database: str


@pytest.fixture
def postgres() -> Iterator[Server]:
    """Run the server that keeps the record."""
    with run_server(need_programs()) as server:
        yield server


@pytest.fixture
def place(course: Path, postgres: Server) -> Place:
    """Let the student's folder name a service that does not run yet."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port = int(listener.getsockname()[1])
    caller = (CourseSource(course).name, STUDENT, LAB)
    key, until = read_key(course.parent / KEY_FILE), datetime.now(UTC)
    token = make_sheet_token(key, caller, until + timedelta(hours=1))
    content = encode_way(Way(f"http://127.0.0.1:{port}", token))
    (students_of(course) / STUDENT / LAB / WAY_FILE).write_bytes(content)
    return Place(port, postgres.make())


@pytest.fixture
def student(server: LabServer, browser: Browser) -> Iterator[Keyboard]:
    page = server.open(browser, f"{STUDENT}/{LAB}/postlab.ipynb")
    load_axe(page)
    keys = Keyboard(page)
    keys.wait_until_live()
    yield keys
    page.close()


def give(student: Keyboard, text: str) -> str:
    """Answer while no verdict can be had, and return what the card says then."""
    card = student.card(STEP)
    student.fill(card.locator("input[type=text]").last, text)
    student.check(STEP)
    card.get_by_role("status").get_by_text("Not judged yet.").wait_for()
    return student.says(STEP)


def wait_until_sent(student: Keyboard) -> None:
    """Wait, with no key pressed, until the card says that the answer went through."""
    status = student.card(STEP).get_by_role("status")
    status.get_by_text("Sent and judged at ").wait_for(timeout=PAUSE_MS)
    assert "Not judged" not in student.says(STEP)


def hand_in(student: Keyboard) -> None:
    """Write a hand-in, and wait until the service has taken it."""
    card = student.card("hand-in")
    student.tab_to(card.get_by_role("button"))
    student.page.keyboard.press("Enter")
    card.get_by_text("The checker took it on ").wait_for()


def test_answers_wait_for_a_service_and_their_verdicts_come_by_themselves(
    place: Place, course: Path, student: Keyboard, postgres: Server
) -> None:
    says = give(student, "11.5 g")
    assert says.startswith("Not judged yet. The checker can't be reached")
    for theme in ("dark", "light"):
        NotebookView(student.page).use_theme(theme)
        assert find_violations(student.card(STEP)) == []
    more = ("--port", str(place.port), "--database", place.database)
    with serve(course, *more) as service:
        wait_until_sent(student)
        hand_in(student)
        service.stop(signal.SIGKILL)
    assert "can't be reached" in give(student, "11.6 g")
    with serve(course, *more) as service:
        wait_until_sent(student)
        service.process.send_signal(signal.SIGSTOP)
        assert "did not answer within 4 s" in give(student, "11.7 g")
        service.process.send_signal(signal.SIGCONT)
        wait_until_sent(student)
        postgres.stop()
        assert "can't keep an answer at the moment" in give(student, "11.8 g")
        postgres.start()
        wait_until_sent(student)
        assert service.stop() == 0
    record = reach_record(place.database)
    (attempts,) = list_attempts(record, CourseSource(course).name, LAB).values()
    ((taken,),) = record.hand_ins(CourseSource(course).name, LAB).values()
    record.close()
    assert {attempt.step for attempt in attempts} == {STEP}
    # Each was sent more than once; in the record it stands once.
    assert [attempt.answer for attempt in attempts] == [
        Typed(f"{mass} g") for mass in ("11.5", "11.6", "11.7", "11.8")
    ]
    assert attempts[0].at < taken.at < attempts[1].at
