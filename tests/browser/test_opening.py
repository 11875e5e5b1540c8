"""
What happens when a notebook is merely opened: ours comes to life, others stay still.

The extension's one promise is that a foreign notebook gains nothing by setting the
flag of ours. Each source below differs from a call of ours in one thing only.
"""

from __future__ import annotations

import json
from importlib.metadata import files
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import workbook
from tests.support.issued import LAB, students_of
from tests.support.keyboard import Keyboard
from tests.support.notebook_view import NotebookView

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer

pytestmark = [pytest.mark.browser, pytest.mark.service]

STUDENT = "m7q2"
EXTENSION = Path(workbook.__file__).parent / "labextension"

OPENING = 'from workbook import open_sheet\n\npage = open_sheet("prelab")\npage'
CARD = 'page.card("splash")'
HAND_IN = "page.hand_in()"

#: Code that would show that it was run.
TRACE = 'open("trace", "w")'

FOREIGN = (
    TRACE,
    f"{OPENING}\n{TRACE}",
    f"{TRACE}\n{OPENING}",
    f"{OPENING}; {TRACE}",
    OPENING.replace("\n\n", "\n"),
    OPENING.replace("\n\n", f"\n{TRACE}\n"),
    OPENING.replace("from workbook", "from workbook.front"),
    OPENING.replace('"prelab"', '"prelab", "/somewhere"'),
    OPENING.replace("prelab", "elsewhere"),
    f"{OPENING}\n",
    f"{CARD}\n",
    f"\n{CARD}",
    f" {CARD}",
    f"{CARD}  # a remark",
    f"# a remark\n{CARD}",
    f"{CARD}; {TRACE}",
    f"{CARD}\n{TRACE}",
    f"{CARD}\r{TRACE}",
    f"{CARD}\u2028{TRACE}",
    f"{CARD} or {TRACE}",
    f"{CARD}.box",
    f"%time {CARD}",
    f"!{CARD}",
    CARD.replace('"', "'"),
    CARD.replace('"', "\u201d"),
    # A Cyrillic letter for a Latin one, a wide one, and one that takes no room.
    CARD.replace("page", "p\u0430ge"),
    CARD.replace("card", "c\u0430rd"),
    CARD.replace("page", "\uff50age"),
    CARD.replace("(", "\uff08"),
    CARD.replace("splash", "spl\u0430sh"),
    CARD.replace("splash", "spl\u200bash"),
    CARD.replace("splash", f'splash"); {TRACE}; page.card("x'),
    CARD.replace("splash", "spl\\x61sh"),
    CARD.replace("splash", "splash\\n"),
    CARD.replace("splash", "{1}"),
    CARD.replace("splash", "a.b.c"),
    CARD.replace("splash", ".."),
    CARD.replace("splash", ""),
    CARD.replace('"splash"', 'f"splash"'),
    CARD.replace('"splash"', 'open("trace", "w").name'),
    HAND_IN.replace("()", "(1)"),
    f"{HAND_IN};",
    "page",
    "page.box",
)


@pytest.fixture(scope="module")
def view(server: LabServer, browser: Browser) -> Iterator[NotebookView]:
    """Open the pre-lab of a student, and touch nothing."""
    page = server.open(browser, f"{STUDENT}/{LAB}/prelab.ipynb")
    yield NotebookView(page)
    page.close()


def write_notebook(
    path: Path, cells: list[tuple[str, str]], *, is_flagged: bool = True
) -> None:
    """Write a notebook of cells, each with its kind and its source."""
    path.parent.mkdir(exist_ok=True)
    made = [make_cell(number, *cell) for number, cell in enumerate(cells)]
    flag = {"lab_workbook": {"runs_on_opening": True}} if is_flagged else {}
    spec = {"name": "python3", "display_name": "Python 3", "language": "python"}
    notebook = {
        "cells": made,
        "metadata": {"kernelspec": spec, **flag},
        "nbformat": 4,
        "nbformat_minor": 5,
    }
    path.write_text(json.dumps(notebook), encoding="utf-8")


def make_cell(number: int, kind: str, source: str) -> dict[str, object]:
    """Return one cell of a notebook's file."""
    unrun: dict[str, object] = {"outputs": [], "execution_count": None}
    code = unrun if kind == "code" else {}
    told = {"cell_type": kind, "id": f"cell-{number}", "metadata": {}}
    return {**told, "source": source, **code}


def wait_for_run(view: NotebookView, source: str) -> None:
    """Wait until a cell has been run."""
    view.wait_for(
        """(source) => {
          const { content } = window.jupyterapp.shell.currentWidget;
          return content.widgets.some(({ model }) =>
            model.sharedModel.getSource() === source && model.executionCount);
        }""",
        source,
    )


def ran(view: NotebookView) -> list[str]:
    """Return the sources of the cells that have been run."""
    return [cell.source for cell in view.cells() if cell.run is not None]


def test_the_cards_are_live_by_themselves(view: NotebookView) -> None:
    Keyboard(view.page).wait_until_live()
    code = [cell for cell in view.cells() if cell.kind == "code"]
    wait_for_run(view, code[-1].source)
    runs = [cell.run for cell in view.cells() if cell.kind == "code"]
    assert runs == list(range(1, len(code) + 1))
    assert view.page.locator(".jp-CodeCell .wb-card").count() == len(code)


def test_the_page_stays_at_its_top(view: NotebookView) -> None:
    Keyboard(view.page).wait_until_live()
    assert view.scrolled_px() == 0
    assert view.page.get_by_role("heading", name="Before the lab").is_visible()


def test_no_code_shows_until_it_is_asked_for(view: NotebookView) -> None:
    keyboard = Keyboard(view.page)
    keyboard.wait_until_live()
    shown = view.page.locator(".jp-CodeCell").locator(
        ".jp-InputPlaceholder:visible, .jp-InputArea-editor:visible"
    )
    keyboard.card("head").scroll_into_view_if_needed()
    assert shown.count() == 0
    keyboard.choose("Expand All Code")
    shown.get_by_text("open_sheet").first.wait_for()
    keyboard.choose("Collapse All Code")
    shown.first.wait_for(state="detached")


def test_cards_come_back_after_a_restart(view: NotebookView) -> None:
    keyboard = Keyboard(view.page)
    keyboard.wait_until_live()
    keyboard.card("hand-in").evaluate("card => card.classList.add('from-before')")
    view.page.evaluate(
        "() => window.jupyterapp.shell.currentWidget.sessionContext"
        ".session.kernel.restart()"
    )
    view.page.locator(".from-before").wait_for(state="detached")
    keyboard.wait_until_live()


def test_a_foreign_notebook_gains_nothing_by_the_flag(
    view: NotebookView, course: Path
) -> None:
    folder = students_of(course) / "foreign"
    others = [("markdown", CARD), ("raw", CARD)]
    cells = [*others, *(("code", source) for source in FOREIGN), ("code", HAND_IN)]
    write_notebook(folder / "flagged.ipynb", cells)
    view.show("foreign/flagged.ipynb")
    # Without a page it fails, but it shows that all cells were looked at.
    wait_for_run(view, HAND_IN)
    assert ran(view) == [HAND_IN]
    assert not (folder / "trace").exists()


def test_nothing_runs_in_a_notebook_that_does_not_ask(
    view: NotebookView, course: Path
) -> None:
    folder = students_of(course) / "silent"
    write_notebook(folder / "plain.ipynb", [("code", HAND_IN)], is_flagged=False)
    write_notebook(folder / "flagged.ipynb", [("code", HAND_IN)])
    view.show("silent/plain.ipynb")
    view.show("silent/flagged.ipynb")
    wait_for_run(view, HAND_IN)
    view.show("silent/plain.ipynb")
    assert ran(view) == []


@pytest.mark.parametrize("name", ["workbook.py", "json.PY", "decimal"])
def test_nothing_runs_beside_what_python_could_import(
    view: NotebookView, course: Path, name: str
) -> None:
    folder = students_of(course) / f"shadowed-{name}"
    write_notebook(folder / "flagged.ipynb", [("code", OPENING)])
    beside = folder / name
    if beside.suffix:
        beside.write_text(TRACE, encoding="utf-8")
    else:
        beside.mkdir()
        (beside / "__init__.py").write_text(TRACE, encoding="utf-8")
    with view.page.expect_console_message(lambda said: "nothing is run" in said.text):
        view.show(f"shadowed-{name}/flagged.ipynb")
    assert ran(view) == []


def test_what_is_installed_is_what_stands_here() -> None:
    """Installing lays the extension where JupyterLab looks; an old copy is found."""
    laid = [
        Path(str(file.locate()))
        for file in files("lab-workbook") or ()
        if "labextensions" in file.parts
    ]
    here = [path for path in EXTENSION.rglob("*") if path.is_file()]
    assert {path.name: path.read_bytes() for path in laid} == {
        path.name: path.read_bytes() for path in here
    }, "Install the package again: pip install --no-deps -e ."
