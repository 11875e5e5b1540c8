"""What every way to a checker has in common."""

from __future__ import annotations

import pytest

from workbook.client.absent import AbsentChecker
from workbook.client.direct import DirectChecker
from workbook.client.transport import accept, ask_in_reach
from workbook.errors import CheckerAwayError, CheckerRefusedError
from workbook.wire.message import OpenSheet, Refused, Sealed, Why


def test_a_statement_is_passed_on() -> None:
    assert accept(Sealed("ab")) == Sealed("ab")


def test_a_refusal_is_raised_with_its_own_sentence() -> None:
    with pytest.raises(CheckerRefusedError, match="This sheet is closed") as caught:
        accept(Refused(Why.COURSE, "This sheet is closed."))
    assert caught.value.code == "course"


def test_who_is_in_reach_is_asked() -> None:
    checker = DirectChecker(lambda _: Sealed("ab"))
    assert ask_in_reach(checker, OpenSheet(None), task="seal") == Sealed("ab")


def test_who_is_not_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    checker = AbsentChecker()
    monkeypatch.setattr(checker, "look", lambda: "it does not answer")
    with pytest.raises(CheckerAwayError, match="to seal: it does not answer"):
        ask_in_reach(checker, OpenSheet(None), task="seal")
