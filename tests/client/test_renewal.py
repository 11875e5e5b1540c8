"""Verdicts that are asked for anew once a reading of one's own is noted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.client.place import Part
from workbook.errors import CheckerDiedError
from workbook.wire.answer import Noted, Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.client.conftest import FakeJudge
    from workbook.client.session import Session

FIRST, CHANGE = Noted("45.12 g"), Noted("45.21 g", "misread", "45.12 g")


@pytest.fixture
def session(open_part: Callable[[Part], Session], judge: FakeJudge) -> Session:
    """Return a session in which one answer came too early, and one can't be read."""
    judge.outcomes |= {
        "wax_mass": Outcome.EARLY,
        "wax_share": Outcome.UNREAD,
        "jar": Outcome.NOTED,
    }
    opened = open_part(Part.POSTLAB)
    opened.submit("wax_mass", Typed("1.50 g"))
    opened.submit("wax_share", Typed("lots"))
    return opened


def outcome_of(session: Session, step: str) -> Outcome:
    found = session.last(step)
    assert found is not None
    return found[1].outcome


def test_what_came_too_early_is_judged_once_the_reading_is_noted(
    session: Session, judge: FakeJudge
) -> None:
    told: list[str] = []
    session.on_verdict = told.append
    judge.outcomes["wax_mass"] = Outcome.RIGHT
    session.submit("jar", FIRST)
    assert outcome_of(session, "wax_mass") is Outcome.RIGHT
    assert judge.judged[-1].standing["jar"] == FIRST
    assert told == ["jar", "wax_mass"]


def test_what_could_not_be_read_is_not_judged_again(
    session: Session, judge: FakeJudge
) -> None:
    session.submit("jar", FIRST)
    asked = [question.step for question in judge.judged]
    assert asked == ["wax_mass", "wax_share", "jar", "wax_mass"]


def test_a_change_with_a_reason_renews_what_follows(
    session: Session, judge: FakeJudge, open_part: Callable[[Part], Session]
) -> None:
    judge.outcomes["wax_mass"] = Outcome.RIGHT
    session.submit("jar", FIRST)
    judge.outcomes["wax_mass"] = Outcome.WRONG
    session.submit("jar", CHANGE)
    again = open_part(Part.POSTLAB)
    assert outcome_of(again, "wax_mass") is Outcome.WRONG
    assert again.history.noted("jar") == CHANGE


def test_a_second_reading_without_a_reason_is_not_even_sent(
    session: Session, judge: FakeJudge
) -> None:
    session.submit("jar", FIRST)
    number = len(judge.judged)
    assert session.submit("jar", Noted("46.00 g")).outcome is Outcome.NOTED
    assert len(judge.judged) == number
    assert session.history.noted("jar") == FIRST


def test_a_checker_that_dies_meanwhile_leaves_the_verdicts_as_they_are(
    session: Session, judge: FakeJudge
) -> None:
    def die_after_the_reading() -> None:
        if judge.judged[-1].step != "jar":
            judge.fault = CheckerDiedError("judge 'wax_mass'", 137)

    judge.on_question = die_after_the_reading
    assert session.submit("jar", FIRST).outcome is Outcome.NOTED
    assert outcome_of(session, "wax_mass") is Outcome.EARLY


def test_a_reading_that_waited_renews_what_follows_when_it_is_judged(
    session: Session, judge: FakeJudge
) -> None:
    judge.outcomes["jar"] = Outcome.NOT_JUDGED
    session.submit("jar", FIRST)
    judge.outcomes |= {"jar": Outcome.NOTED, "wax_mass": Outcome.RIGHT}
    session.send_again()
    assert outcome_of(session, "wax_mass") is Outcome.RIGHT
    assert session.history.noted("jar") == FIRST
