"""A course of three students on the olive-oil lab."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.soap import LAB, make_course
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from workbook.labfile.half import PublicHalf


@pytest.fixture(scope="session")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="session")
def public(source: CourseSource) -> PublicHalf:
    return source.labs[LAB].public
