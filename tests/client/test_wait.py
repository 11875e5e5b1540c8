"""What is said of answers that wait."""

from __future__ import annotations

import re
from datetime import UTC, datetime

from workbook.client.delay import Delay
from workbook.client.wait import Wait, say_kept

NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)


def test_an_answer_that_waits_says_why() -> None:
    wait = Wait()
    assert wait.explain("a1").startswith("No verdict has come yet. Your answer is kept")
    wait.put_off("a1", "The checker is away.")
    assert wait.explain("a1") == "The checker is away."


def test_what_went_through_says_when() -> None:
    wait = Wait()
    wait.put_off("a1", "The checker is away.")
    wait.end("a1", NOON, was_sent_again=False)
    assert re.fullmatch(r"Sent and judged at \d\d:\d\d \S+\.", wait.tell_end("a1"))
    assert wait.explain("a1").startswith("No verdict")


def test_what_was_judged_at_once_says_nothing() -> None:
    wait = Wait()
    wait.end("a1", NOON, was_sent_again=False)
    assert wait.tell_end("a1") == ""


def test_the_second_failure_makes_an_attempt_a_hard_one() -> None:
    wait = Wait()
    wait.fail("a1")
    assert not wait.is_hard("a1")
    wait.fail("a1")
    assert (wait.is_hard("a1"), wait.is_hard("a2")) == (True, False)


def test_only_what_may_pass_is_said_to_be_sent_again() -> None:
    assert "will be sent again" in say_kept("Away.")
    assert "run this notebook again" in say_kept("Who are you?", Delay.MENDED)
    assert "is not sent again" in say_kept("No attempt is left.", Delay.EVER)
