"""The student image, built and installed once for all tests here."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import pytest

from tests.support.environment import install_wheel, lay_environment
from tests.support.hub import issue_course
from tests.support.studentside import PROJECT, build_wheel

if TYPE_CHECKING:
    from pathlib import Path


class Image(NamedTuple):
    """The student image: what was built, and where it is installed."""

    wheel: Path
    python: Path


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel of the student image."""
    return build_wheel(tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="session")
def image(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Image:
    """Install it with what it requires, and nothing else."""
    place = tmp_path_factory.mktemp("image") / "venv"
    python = lay_environment(place, PROJECT["dependencies"])
    install_wheel(wheel, python)
    return Image(wheel, python)


@pytest.fixture(scope="session")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Issue the demonstration for two students, and return what they get."""
    course = issue_course(tmp_path_factory.mktemp("teacher"))
    return course.parents[1] / "issued" / "students"
