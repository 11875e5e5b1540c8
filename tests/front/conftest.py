"""A page on the small sheet of `stage`, and a watch over swallowed errors."""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.front.stage import SHEET, Browser, FakeJudge
from workbook.client.direct import DirectChecker
from workbook.client.place import SHEET_FILE, Part
from workbook.client.session import open_session
from workbook.front.page import Page

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from workbook.client.session import Session


@pytest.fixture(autouse=True)
def fail_on_a_logged_exception(caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """Fail a test whose widgets swallowed an exception."""
    with caplog.at_level(logging.WARNING):
        yield
    swallowed = [record for record in caplog.get_records("call") if record.exc_info]
    assert not swallowed, swallowed[0].getMessage()


@pytest.fixture
def browser() -> Browser:
    return Browser()


@pytest.fixture
def judge() -> FakeJudge:
    return FakeJudge()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / SHEET_FILE).write_bytes(msgspec.json.encode(SHEET))
    return tmp_path


@pytest.fixture
def session(folder: Path, judge: FakeJudge) -> Session:
    return open_session(folder, Part.POSTLAB, DirectChecker(judge))


@pytest.fixture
def page(session: Session) -> Page:
    return Page(session)


@pytest.fixture
def before(folder: Path, judge: FakeJudge) -> Page:
    """Return the page of the part before the lab."""
    return Page(open_session(folder, Part.PRELAB, DirectChecker(judge)))


@pytest.fixture
def open_again(folder: Path, judge: FakeJudge) -> Callable[[], Page]:
    """Give the page that stands there after a kernel restart."""
    return lambda: Page(open_session(folder, Part.POSTLAB, DirectChecker(judge)))
