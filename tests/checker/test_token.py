"""Tokens of sheets: made with the key, read with it, and with nothing else."""

from __future__ import annotations

import base64
import json
import string

import pytest
from itsdangerous import URLSafeSerializer

from tests.support.caller import ADA, BEN, DAY, KEY, Clock
from tests.support.soap import COURSE, NOON
from workbook.checker.caller import Caller
from workbook.checker.token import TokenPorter, make_token, read_token
from workbook.draw.key import CourseKey
from workbook.errors import CheckerRefusedError

TOKEN = make_token(KEY, ADA, NOON + DAY)


def refused(token: str, *, key: CourseKey = KEY, course: str = COURSE) -> str:
    """Return why a token is refused at noon."""
    with pytest.raises(CheckerRefusedError) as caught:
        read_token(key, course, token, NOON)
    assert caught.value.code == "caller"
    return caught.value.reason


@pytest.mark.parametrize("caller", [ADA, BEN, Caller(COURSE, "a1", None)])
def test_a_token_says_who_asks(caller: Caller) -> None:
    token = make_token(KEY, caller, NOON + DAY)
    assert read_token(KEY, COURSE, token, NOON) == caller


def test_a_token_needs_no_quotes_in_a_header() -> None:
    # The characters of a bearer token: RFC 6750, section 2.1.
    assert set(TOKEN) <= set(string.ascii_letters + string.digits + "-._~+/=")


def test_a_token_ends_at_its_time_and_not_before() -> None:
    token = make_token(KEY, ADA, NOON + DAY)
    almost = NOON + DAY * 0.999
    assert read_token(KEY, COURSE, token, almost) == ADA
    with pytest.raises(CheckerRefusedError, match=r"time .* is over"):
        read_token(KEY, COURSE, token, NOON + DAY)


@pytest.mark.parametrize("place", range(0, len(TOKEN), 7))
def test_a_token_with_another_character_is_refused(place: int) -> None:
    other = "A" if TOKEN[place] != "A" else "B"
    refused(TOKEN[:place] + other + TOKEN[place + 1 :])


def test_a_token_whose_student_was_changed_is_refused() -> None:
    _, told = URLSafeSerializer("any").loads_unsafe(TOKEN)
    assert told["student"] == "a1"
    forged = json.dumps({**told, "student": "b2"}).encode()
    content = base64.urlsafe_b64encode(forged).decode().rstrip("=")
    refused(f"{content}.{TOKEN.rpartition('.')[2]}")


def test_a_token_of_another_key_is_refused() -> None:
    refused(TOKEN, key=CourseKey(bytes(32)))


def test_a_token_of_another_course_is_refused() -> None:
    # One key may have been copied to a second course.
    refused(make_token(KEY, Caller("other", "a1"), NOON + DAY))
    refused(TOKEN, course="other")


@pytest.mark.parametrize(
    "token", ["", ".", "a.b", TOKEN[:-1], f"{TOKEN}.{TOKEN}", "é" * 40, "x" * 100_000]
)
def test_nonsense_is_refused(token: str) -> None:
    assert "does not know who asks" in refused(token)


def test_the_seal_of_a_hand_in_signs_no_token() -> None:
    assert KEY.seal("ab" * 32) not in TOKEN
    content = TOKEN.rpartition(".")[0]
    refused(f"{content}.{KEY.seal(content)}")


def test_a_porter_goes_by_the_time_of_its_clock() -> None:
    clock = Clock()
    porter = TokenPorter(KEY, COURSE, clock)
    assert porter.find(TOKEN) == ADA
    clock.now = NOON + DAY
    with pytest.raises(CheckerRefusedError):
        porter.find(TOKEN)
