"""What every way to a checker has in common."""

from __future__ import annotations

import pytest

from workbook.client.transport import accept
from workbook.errors import CheckerRefusedError
from workbook.wire.message import Refused, Sealed, Why


def test_a_statement_is_passed_on() -> None:
    assert accept(Sealed("ab")) == Sealed("ab")


def test_a_refusal_is_raised_with_its_own_sentence() -> None:
    with pytest.raises(CheckerRefusedError, match="This sheet is closed") as caught:
        accept(Refused(Why.COURSE, "This sheet is closed."))
    assert caught.value.code == "course"
