"""One notebook's talk with a checker."""

from __future__ import annotations

import tempfile
from typing import TYPE_CHECKING

import msgspec
import pytest

from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import open_session
from workbook.errors import (
    CheckerAwayError,
    CheckerDiedError,
    CheckerRefusedError,
    CheckerSlowError,
    TaskError,
)
from workbook.wire.answer import Typed
from workbook.wire.handin import HandIn
from workbook.wire.message import OpenSheet, Sealed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tests.client.conftest import FakeJudge
    from workbook.client.session import Session
    from workbook.wire.sheet import Sheet

    OpenPart = Callable[[Part], Session]

RECORD = "cold-cream-postlab.attempts.jsonl"
DEAD = CheckerDiedError("judge 'wax_mass'", 137)


def test_a_verdict_is_returned_and_kept(open_part: OpenPart) -> None:
    verdict = open_part(Part.POSTLAB).submit("wax_mass", Typed("1.50 g"))
    assert verdict.outcome is Outcome.RIGHT
    assert open_part(Part.POSTLAB).last("wax_mass") == (Typed("1.50 g"), verdict)


def test_an_attempt_is_on_disk_before_the_checker_hears_of_it(
    open_part: OpenPart, judge: FakeJudge, folder: Path
) -> None:
    seen: list[bytes] = []
    session = open_part(Part.POSTLAB)
    judge.on_question = lambda: seen.append((folder / RECORD).read_bytes())
    session.submit("wax_mass", Typed("1.50 g"))
    assert b"1.50 g" in seen[0]


def test_a_verdict_is_on_disk_before_it_is_shown(
    open_part: OpenPart, folder: Path
) -> None:
    seen: list[bytes] = []
    session = open_part(Part.POSTLAB)
    session.on_verdict = lambda _: seen.append((folder / RECORD).read_bytes())
    session.submit("wax_mass", Typed("1.50 g"))
    assert b"Said of wax_mass." in seen[0]


def test_an_answer_that_can_t_be_kept_is_not_sent(
    open_part: OpenPart, judge: FakeJudge, folder: Path
) -> None:
    session = open_part(Part.POSTLAB)
    (folder / RECORD).mkdir()
    verdict = session.submit("wax_mass", Typed("1.50 g"))
    assert verdict.outcome is Outcome.NOT_JUDGED
    assert "can't be read: Is a directory" in verdict.sentence
    assert "not kept, and not sent" in verdict.sentence
    assert judge.judged == []


@pytest.mark.parametrize(
    ("fault", "words"),
    [
        (DEAD, "ended with code 137"),
        (CheckerSlowError("judge", 20.0), "did not answer within 20 s"),
        (CheckerRefusedError("closed", "The course is closed."), "course is closed"),
    ],
)
def test_a_fault_is_not_judged_and_says_that_the_answer_is_kept(
    open_part: OpenPart, judge: FakeJudge, fault: Exception, words: str
) -> None:
    judge.fault = fault
    verdict = open_part(Part.POSTLAB).submit("wax_mass", Typed("1.50 g"))
    assert verdict.outcome is Outcome.NOT_JUDGED
    assert words in verdict.sentence
    assert verdict.sentence.endswith("Your answer is kept, and will be sent again.")


def test_an_answer_of_another_kind_from_the_checker_is_not_judged(
    folder: Path,
) -> None:
    checker = DirectChecker(lambda _: Sealed("ab"))
    session = open_session(folder, Part.POSTLAB, checker)
    verdict = session.submit("wax_mass", Typed("1 g"))
    assert verdict.outcome is Outcome.NOT_JUDGED


def test_what_waits_is_sent_again_after_the_next_verdict(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    session = open_part(Part.POSTLAB)
    judge.fault = DEAD
    session.submit("wax_mass", Typed("1.50 g"))
    judge.fault = None
    session.submit("wax_share", Typed("12 %"))
    last = session.last("wax_mass")
    assert last is not None
    assert last[1].outcome is Outcome.RIGHT
    assert session.history.own.unjudged == ()


def test_what_waits_is_sent_again_when_the_page_is_opened_again(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    judge.fault = DEAD
    open_part(Part.POSTLAB).submit("wax_mass", Typed("1.50 g"))
    judge.fault = None
    again = open_part(Part.POSTLAB)
    changed: list[str] = []
    again.on_verdict = changed.append
    again.send_again()
    assert changed == ["wax_mass"]
    assert again.right == 1


def test_sending_again_stops_at_the_first_fault(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    session = open_part(Part.POSTLAB)
    judge.fault = CheckerAwayError("judge", "nothing answers")
    session.submit("wax_mass", Typed("1 g"))
    session.submit("wax_share", Typed("2 %"))
    judge.asked.clear()
    session.send_again()
    assert [question.step for question in judge.judged] == ["wax_mass"]


def test_a_step_is_judged_with_the_standing_answers_of_both_parts(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    open_part(Part.PRELAB).submit("plan", Typed("3 g"))
    postlab = open_part(Part.POSTLAB)
    postlab.submit("wax_mass", Typed("1.50 g"))
    postlab.submit("wax_share", Typed("12 %"))
    expected = {"plan": Typed("3 g"), "wax_mass": Typed("1.50 g")}
    assert judge.judged[-1].standing == expected


def test_an_unread_answer_does_not_stand_for_later_steps(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    session = open_part(Part.POSTLAB)
    judge.outcomes["wax_mass"] = Outcome.UNREAD
    session.submit("wax_mass", Typed("lots"))
    session.submit("wax_share", Typed("12 %"))
    assert judge.judged[-1].standing == {}


def test_checking_the_same_answer_twice_is_one_attempt(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    session = open_part(Part.POSTLAB)
    first = session.submit("wax_mass", Typed("1 g"))
    assert session.submit("wax_mass", Typed("1 g")) == first
    assert len(judge.judged) == 1


def test_the_progress_counts_the_steps_of_this_part(open_part: OpenPart) -> None:
    open_part(Part.PRELAB).submit("plan", Typed("3 g"))
    session = open_part(Part.POSTLAB)
    assert (session.right, len(session.steps)) == (0, 3)
    session.submit("wax_mass", Typed("1 g"))
    assert session.right == 1


def test_a_step_that_was_not_tried_has_no_last_attempt(open_part: OpenPart) -> None:
    assert open_part(Part.POSTLAB).last("wax_mass") is None


def test_a_hand_in_holds_the_attempts_of_both_parts(open_part: OpenPart) -> None:
    open_part(Part.PRELAB).submit("plan", Typed("3 g"))
    postlab = open_part(Part.POSTLAB)
    postlab.submit("wax_mass", Typed("1 g"))
    receipt = postlab.hand_in()
    written = msgspec.json.decode(receipt.path.read_bytes(), type=HandIn)
    assert [attempt.step for attempt in written.attempts] == ["plan", "wax_mass"]
    assert written.seal == f"seal of {written.digest[:4]}"
    assert receipt.is_sealed


def test_a_folder_without_a_sheet_gives_one_for_practice(
    tmp_path: Path, judge: FakeJudge, sheet: Sheet
) -> None:
    session = open_session(tmp_path, Part.POSTLAB, DirectChecker(judge))
    session.submit("wax_mass", Typed("1 g"))
    assert judge.asked[0] == OpenSheet(None)
    assert (session.sheet, session.is_issued) == (sheet, False)
    assert list(tmp_path.iterdir()) == []


def test_a_practice_sheet_can_t_be_handed_in(tmp_path: Path, judge: FakeJudge) -> None:
    session = open_session(tmp_path, Part.POSTLAB, DirectChecker(judge))
    with pytest.raises(TaskError, match="for practice, so there is nothing to hand in"):
        session.hand_in()


def test_a_checker_that_makes_no_practice_sheet_is_an_error(tmp_path: Path) -> None:
    checker = DirectChecker(lambda _: Sealed("ab"))
    with pytest.raises(CheckerRefusedError, match="made no practice sheet"):
        open_session(tmp_path, Part.POSTLAB, checker)


def test_closing_lets_go_of_the_checker(
    folder: Path, judge: FakeJudge, monkeypatch: pytest.MonkeyPatch
) -> None:
    closed: list[bool] = []
    checker = DirectChecker(judge)
    monkeypatch.setattr(checker, "close", lambda: closed.append(True))
    open_session(folder, Part.POSTLAB, checker).close()
    assert closed == [True]


def test_an_answer_that_waits_is_sent_again_when_it_is_checked_again(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    session = open_part(Part.POSTLAB)
    judge.fault = DEAD
    session.submit("wax_mass", Typed("1.50 g"))
    judge.fault = None
    assert session.submit("wax_mass", Typed("1.50 g")).outcome is Outcome.RIGHT
    assert len(session.history.own.attempts) == 1


def test_whoever_listens_is_told_of_what_another_notebook_wrote(
    open_part: OpenPart,
) -> None:
    one, two = open_part(Part.POSTLAB), open_part(Part.POSTLAB)
    changed: list[str] = []
    one.on_verdict = changed.append
    two.submit("wax_mass", Typed("1.50 g"))
    assert one.keep_draft("wax_share", Typed("1")) == ""
    assert changed == ["wax_mass"]
    assert one.right == 1


def test_a_draft_that_can_t_be_kept_is_told_and_what_to_do(
    open_part: OpenPart, folder: Path
) -> None:
    session = open_part(Part.POSTLAB)
    (folder / RECORD).mkdir()
    said = session.keep_draft("wax_mass", Typed("1"))
    assert "can't be written: Is a directory" in said
    assert said.endswith("leave this page open till then.")


def test_a_practice_sheet_without_a_place_for_its_record_is_told(
    tmp_path: Path, judge: FakeJudge, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    with pytest.raises(TaskError, match="No folder can be made for a practice sheet"):
        open_session(tmp_path, Part.POSTLAB, DirectChecker(judge))


def test_a_prediction_that_was_made_takes_no_other_answer(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    judge.outcomes["wax_share"] = Outcome.COMMITTED
    session = open_part(Part.POSTLAB)
    session.submit("wax_share", Typed("12 %"))
    assert session.submit("wax_share", Typed("13 %")).outcome is Outcome.COMMITTED
    assert [question.answer for question in judge.judged] == [Typed("12 %")]
    last = session.last("wax_share")
    assert last is not None
    assert last[0] == Typed("12 %")


def test_a_prediction_of_another_notebook_stands_too(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    judge.outcomes["wax_share"] = Outcome.COMMITTED
    one, two = open_part(Part.POSTLAB), open_part(Part.POSTLAB)
    one.submit("wax_share", Typed("12 %"))
    two.submit("wax_share", Typed("13 %"))
    assert [question.answer for question in judge.judged] == [Typed("12 %")]


def test_the_first_of_two_predictions_that_waited_stands(
    open_part: OpenPart, judge: FakeJudge
) -> None:
    judge.outcomes["wax_share"] = Outcome.COMMITTED
    session = open_part(Part.POSTLAB)
    judge.fault = DEAD
    session.submit("wax_share", Typed("12 %"))
    judge.fault = None
    session.submit("wax_share", Typed("13 %"))
    last = session.last("wax_share")
    assert last is not None
    assert last[0] == session.history.stand().answers["wax_share"] == Typed("12 %")


def test_an_attempt_is_told_by_its_id(open_part: OpenPart, judge: FakeJudge) -> None:
    session = open_part(Part.POSTLAB)
    session.submit("wax_mass", Typed("1.50 g"))
    (attempt,) = session.history.own.attempts
    assert [asked.attempt for asked in judge.judged] == [attempt.id]
