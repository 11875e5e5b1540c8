"""A course that is issued, and a Chromium to work in it."""

from __future__ import annotations

import csv
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from tests.support.lab_server import start_chromium
from workbook.cli import main

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

EXERCISES = Path(__file__).parents[2] / "exercises"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Start a Chromium without a window."""
    with start_chromium() as chromium:
        yield chromium


@pytest.fixture
def course(tmp_path: Path) -> Path:
    """Copy the demonstration course, and issue it to a folder beside it."""
    shutil.copytree(
        EXERCISES, tmp_path / "course", ignore=shutil.ignore_patterns("*.key")
    )
    path = tmp_path / "course" / "course.toml"
    issued = CliRunner().invoke(
        main, ["issue", str(path), "--to", str(tmp_path / "out")]
    )
    assert issued.exit_code == 0, issued.output
    return path


@pytest.fixture
def answers(course: Path) -> dict[str, str]:
    """Read what the answer book says of the first student, by step or reading."""
    book = course.parents[1] / "out" / "instructor" / "answers.csv"
    with book.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {row["id"]: row["value"] for row in rows if row["student"] == "k3f8"}
