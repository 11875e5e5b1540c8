"""One course that is issued, and one JupyterLab, for all tests here of one process."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.issued import GATED_STUDENT, issue_course, open_gates, students_of
from tests.support.lab_server import start_chromium, start_lab

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

    from tests.support.lab_server import LabServer


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """
    Start a Chromium without a window, for the tests of one file.

    While its driver is up, its event loop runs in this thread, and no other may begin:
    it has to be gone before the tests of another part.
    """
    with start_chromium() as chromium:
        yield chromium


@pytest.fixture(scope="session")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """
    Issue the demonstration course; each test works as a student of its own.

    One of them has to pass the gate before the lab; to the others it is open.
    """
    path = issue_course(tmp_path_factory.mktemp("browser"))
    open_gates(path, but=GATED_STUDENT)
    return path


@pytest.fixture(scope="session")
def server(
    course: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[LabServer]:
    """Start a JupyterLab that serves the folders of all students."""
    env = {"WORKBOOK_COURSE": str(course)}
    home = tmp_path_factory.mktemp("home")
    with start_lab(students_of(course), home, env=env) as lab:
        yield lab
