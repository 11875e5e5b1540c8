"""The instructor's desk in a real Chromium: by keyboard alone, in both themes."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from nbformat import write
from nbformat.v4 import new_code_cell, new_notebook

from tests.support.axe import find_violations, load_axe
from tests.support.issued import EXERCISES
from tests.support.keyboard import Keyboard
from tests.support.lab_server import start_lab
from tests.support.marked import mark_class
from tests.support.notebook_view import NotebookView
from tests.support.recorded import make_record, name_record
from tests.support.soap import LAB, make_attempts, make_course, name_sheet
from workbook.checker.door import RECORD_FILE, reach_record
from workbook.labfile.permit import PERMIT_FILE
from workbook.marking.record import RECORD_FILE as MARKS_FILE
from workbook.marking.record import write_record
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

CARDS = ("live", "queue", "sheet", "calibrate", "read", "class")

_DUE = f"[dates.{LAB}]\ndue = 2026-10-12T17:00:00\n"

#: Two cards of a course that runs, and was marked before anybody had handed in.
_CELLS = (
    "from workbook.desk import open_desk",
    'desk = open_desk("running/course.toml", "running/marks")',
    "desk.live()",
    "desk.queue()",
)

_KERNEL = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}

#: A class is simulated and marked when the desk is opened [ms].
OPENING_MS = 90_000


#: Controls of a card that reach out of it, by what they say.
_REACHES_OUT = """card => {
  const right = card.getBoundingClientRect().right;
  return [...card.querySelectorAll("button, input, select, .wb-asks")]
    .filter((at) => at.getBoundingClientRect().right > right + 1)
    .map((at) => at.textContent || at.getAttribute("aria-label") || at.tagName);
}"""


#: How far below or above its sentence each mark of a verdict stands [px].
_FAR_MARKS = """card => [...card.querySelectorAll(".said > .wb-mark")].map((mark) =>
  Math.abs(mark.getBoundingClientRect().top
    - mark.parentElement.getBoundingClientRect().top))"""


def find_in_both_themes(keys: Keyboard, name: str) -> list[str]:
    """Return what axe-core finds wrong with a card, in light and in dark."""
    view, found = NotebookView(keys.page), []
    for theme in ("dark", "light"):
        view.use_theme(theme)
        found += find_violations(keys.card(name))
    return found


def _is_sign(said: str) -> bool:
    """Tell what axe-core leaves open: one sign of a formula is too short to judge."""
    return said.startswith("color-contrast: <mo>")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Copy the demonstration course, and lay a course that runs beside it."""
    place = tmp_path_factory.mktemp("desk") / "exercises"
    shutil.copytree(EXERCISES, place, ignore=shutil.ignore_patterns("*.key"))
    running = place / "running"
    running.mkdir()
    course = make_course(running)
    course.write_text(course.read_text("utf-8") + _DUE, encoding="utf-8")
    make_record(running / RECORD_FILE)
    (running / "marks").mkdir()
    write_record(running / "marks" / MARKS_FILE, ())
    cells = [new_code_cell(each, metadata={"trusted": True}) for each in _CELLS]
    write(new_notebook(cells=cells, metadata=_KERNEL), place / "running.ipynb")
    return place


@pytest.fixture(scope="module")
def server(
    folder: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[LabServer]:
    with start_lab(folder, tmp_path_factory.mktemp("home")) as started:
        yield started


@pytest.fixture(scope="module")
def live(server: LabServer, browser: Browser) -> Iterator[Keyboard]:
    """Open the desk of the course that runs, once for all that happens to it."""
    page = server.open(browser, "running.ipynb")
    page.set_viewport_size({"width": 1400, "height": 1400})
    load_axe(page)
    Keyboard(page).choose("Run All Cells")
    Keyboard(page).card("queue").wait_for(state="attached", timeout=OPENING_MS)
    yield Keyboard(page)
    page.close()


@pytest.fixture(scope="module")
def view(server: LabServer, browser: Browser) -> Iterator[NotebookView]:
    """Open the desk on a copy of the demonstration course, and run it."""
    page = server.open(browser, "desk.ipynb")
    # As large as a card: axe-core judges no colour of what is out of sight.
    page.set_viewport_size({"width": 2800, "height": 3600})
    load_axe(page)
    Keyboard(page).choose("Run All Cells")
    Keyboard(page).card("class").wait_for(state="attached", timeout=OPENING_MS)
    yield NotebookView(page)
    page.close()


def test_a_text_is_marked_by_keyboard_alone(view: NotebookView) -> None:
    keys = Keyboard(view.page)
    card = keys.card("read")
    keys.fill(card.get_by_label("Your name"), "R. Eddy")
    keys.tab_to(card.get_by_label("It shows"))
    view.page.keyboard.type("About half")
    keys.tab_to(card.get_by_label("Comment bank"))
    view.page.keyboard.type("Estimate")
    keys.tab_to(card.get_by_role("button", name="Keep and go on"))
    view.page.keyboard.press("Enter")
    card.get_by_text("Kept. The next text is shown.").wait_for()
    assert "1 of " in card.inner_text()


@pytest.mark.parametrize("name", CARDS)
def test_axe_finds_nothing_wrong_with_a_card_of_the_desk(
    view: NotebookView, name: str
) -> None:
    card = Keyboard(view.page).card(name)
    card.locator(".wb-asks").evaluate("heading => heading.scrollIntoView()")
    found = {}
    for theme in ("light", "dark"):
        view.use_theme(theme)
        found[theme] = [each for each in find_violations(card) if not _is_sign(each)]
    view.use_theme("light")
    assert found == {"light": [], "dark": []}


def test_each_mark_on_a_sheet_stands_beside_its_sentence(view: NotebookView) -> None:
    card = Keyboard(view.page).card("sheet")
    away = card.evaluate(_FAR_MARKS)
    assert len(away) > 20
    assert max(away) < 20


def test_keys_in_a_card_do_not_reach_the_notebook(view: NotebookView) -> None:
    keys, before = Keyboard(view.page), view.cells()
    keys.tab_to(keys.card("queue").get_by_role("button", name="Look again"))
    for key in ("d", "d", "m", "ArrowDown", "x"):
        view.page.keyboard.press(key)
    assert view.cells() == before


def test_the_table_of_a_running_course_follows_what_students_do(
    live: Keyboard, folder: Path
) -> None:
    card = live.card("live")
    card.get_by_text("3 students: 0 have begun").wait_for()
    record = reach_record(name_record(folder / "running" / RECORD_FILE))
    (attempt,) = make_attempts([("dish", Typed("45.05 g"))])
    record.take(name_sheet("b2"), attempt)
    record.note(name_sheet("b2"), attempt.id, Outcome.RIGHT)
    card.get_by_text("3 students: 1 have begun").wait_for()
    assert card.get_by_text("agrees").count() == 1


def test_one_student_is_given_time_and_the_gate_by_keyboard_alone(
    live: Keyboard, folder: Path
) -> None:
    card = live.card("live")
    live.tab_to(card.get_by_label("Student", exact=True))
    live.page.keyboard.type("b2")
    live.fill(card.get_by_label("More time until"), "2026-10-14 09:00")
    live.fill(card.get_by_label("Reason"), "ill")
    live.tab_to(card.get_by_role("button", name="Give more time"))
    live.page.keyboard.press("Enter")
    card.get_by_role("status").get_by_text("is due for b2 at 2026-10-14").wait_for()
    live.tab_to(card.get_by_role("button", name="Open the gate"))
    live.page.keyboard.press("Enter")
    card.get_by_role("status").get_by_text("is open now for b2").wait_for()
    assert card.get_by_text("14 Oct 09:00").count() == 1
    permits = (folder / "running" / PERMIT_FILE).read_text("utf-8")
    assert 'student = "b2"' in permits
    assert find_in_both_themes(live, "live") == []


def test_a_later_marking_is_read_by_keyboard_alone(
    live: Keyboard, folder: Path
) -> None:
    card = live.card("queue")
    assert "Nothing waits." in card.inner_text()
    source = CourseSource(folder / "running" / "course.toml")
    write_record(folder / "running" / "marks" / MARKS_FILE, mark_class(source))
    live.tab_to(card.get_by_role("button", name="Look again"))
    live.page.keyboard.press("Enter")
    card.get_by_role("status").get_by_text("A later marking was read.").wait_for()
    # Both students who handed in wrote both texts.
    assert card.get_by_text("2 texts to mark").count() == 2
    assert find_in_both_themes(live, "queue") == []


def test_a_narrow_window_cuts_nothing_off(live: Keyboard) -> None:
    NotebookView(live.page).command("application:toggle-left-area")
    live.page.set_viewport_size({"width": 400, "height": 1400})
    for name in ("live", "queue"):
        card = live.card(name)
        card.locator(".wb-asks").evaluate("heading => heading.scrollIntoView()")
        assert card.evaluate(_REACHES_OUT) == []
