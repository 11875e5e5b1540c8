"""A service in memory on the olive-oil course, with a record in a real file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.caller import KEY, Clock, open_database
from tests.support.postgres import need_programs, run_server
from tests.support.soap import COURSE, LAB, STUDENTS, answer_rightly, make_course
from workbook.checker.counter import Counter
from workbook.checker.exchange import Exchange
from workbook.checker.record import AttemptRecord
from workbook.checker.token import TokenPorter
from workbook.solver.desk import Desk
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.support.postgres import Server
    from workbook.checker.database import Database
    from workbook.wire.answer import Answer

#: Attempts that the tests' own course allows, by lab and step.
LIMITS = {LAB: {"dish": 2}}


@pytest.fixture(scope="session")
def course(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the file of a course with its key."""
    return make_course(tmp_path_factory.mktemp("course"))


@pytest.fixture(scope="session")
def source(course: Path) -> CourseSource:
    return CourseSource(course)


@pytest.fixture(scope="session")
def desk(source: CourseSource) -> Desk:
    return Desk(source)


@pytest.fixture(scope="session")
def answers(source: CourseSource) -> dict[str, Answer]:
    """Return the first student's right answers."""
    return answer_rightly(source.cases(LAB, STUDENTS)[0])


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """Run a PostgreSQL server."""
    with run_server(need_programs()) as server:
        yield server


@pytest.fixture(params=["sqlite", "postgres"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Return the address of an empty database, of each kind."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'record.sqlite'}"
    server: Server = request.getfixturevalue("postgres")
    return server.make()


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def database(tmp_path: Path) -> Iterator[Database]:
    opened = open_database(tmp_path)
    yield opened
    opened.close()


@pytest.fixture
def record(database: Database) -> AttemptRecord:
    return AttemptRecord(database)


@pytest.fixture
def counter(desk: Desk, record: AttemptRecord, clock: Clock) -> Counter:
    return Counter(desk, record, LIMITS, clock)


@pytest.fixture
def exchange(counter: Counter, clock: Clock) -> Exchange:
    return Exchange(TokenPorter(KEY, COURSE, clock), counter)
