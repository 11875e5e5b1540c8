"""The checker that is a function."""

from __future__ import annotations

import pytest

from workbook.client.direct import DirectChecker
from workbook.errors import CheckerRefusedError
from workbook.wire.message import OpenSheet, Refused, Sealed, Why


def test_the_function_s_statement_comes_back() -> None:
    checker = DirectChecker(lambda _: Sealed("ab"))
    assert checker.ask(OpenSheet(), task="test", limit_s=1) == Sealed("ab")
    checker.close()


def test_a_refusal_is_an_error_here_too() -> None:
    checker = DirectChecker(lambda _: Refused(Why.COURSE, "No sheet of that name."))
    with pytest.raises(CheckerRefusedError, match="No sheet of that name"):
        checker.ask(OpenSheet(), task="test", limit_s=1)
