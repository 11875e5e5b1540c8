"""Hand-ins: the fingerprint is that of the content, now and in years."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import msgspec
import pytest

from tests.wire.conftest import ANSWERS, ID
from workbook.wire.answer import Typed
from workbook.wire.handin import (
    HAND_IN_VERSION,
    Attempt,
    HandIn,
    compose_hand_in,
    digest,
)
from workbook.wire.sheet import SheetId

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
ATTEMPTS = tuple(
    Attempt(f"try-{number}", step, answer, NOON + timedelta(minutes=number))
    for number, (step, answer) in enumerate(ANSWERS.items())
)


def test_a_hand_in_is_read_back() -> None:
    made = compose_hand_in(ID, ATTEMPTS, NOON)
    assert msgspec.json.decode(msgspec.json.encode(made), type=HandIn) == made


def test_the_fingerprint_is_sha_256_of_the_canonical_json() -> None:
    """
    Worked out apart from this package, so that old hand-ins keep their fingerprint.

    By coreutils: printf '%s' '[...]' | sha256sum, the text being the one below.
    """
    sheet, attempts = (
        SheetId("c", "l", 1, "s"),
        (Attempt("1", "m", Typed("2 g"), NOON),),
    )
    text = (
        '[{"course":"c","lab":"l","revision":1,"student":"s"},'
        '[{"answer":{"text":"2 g","type":"typed"},"at":"2026-03-02T12:00:00Z",'
        '"id":"1","step":"m"}],"2026-03-02T12:00:00Z"]'
    )
    assert msgspec.json.encode((sheet, attempts, NOON), order="sorted").decode() == text
    assert digest(sheet, attempts, NOON) == SHA_256


SHA_256 = "db29193885056bb21f991a2236a923afd513917553fcb81904ae22afe23ce34c"


def test_the_fingerprint_outlives_a_file() -> None:
    encoded = msgspec.json.encode(ATTEMPTS)
    again = msgspec.json.decode(encoded, type=tuple[Attempt, ...])
    assert digest(ID, again, NOON) == digest(ID, ATTEMPTS, NOON)


@pytest.mark.parametrize(
    ("sheet", "attempts", "at"),
    [
        (SheetId("autumn", "cold-cream", 2, "s08"), ATTEMPTS, NOON),
        (SheetId("autumn", "cold-cream", 3, "s07"), ATTEMPTS, NOON),
        (ID, ATTEMPTS[1:], NOON),
        (ID, ATTEMPTS[::-1], NOON),
        (ID, ATTEMPTS, NOON + timedelta(seconds=1)),
        (ID, ATTEMPTS, NOON.astimezone(timezone(timedelta(hours=1)))),
    ],
)
def test_any_change_shows_in_the_fingerprint(
    sheet: SheetId, attempts: tuple[Attempt, ...], at: datetime
) -> None:
    assert digest(sheet, attempts, at) != digest(ID, ATTEMPTS, NOON)


def test_a_hand_in_that_is_made_carries_its_fingerprint_and_the_seal_of_it() -> None:
    made = compose_hand_in(
        ID, ATTEMPTS, NOON, lambda sheet, mark: sheet.student + mark[::-1]
    )
    assert made.version == HAND_IN_VERSION
    assert made.digest == digest(ID, ATTEMPTS, NOON)
    assert made.seal == ID.student + made.digest[::-1]


def test_a_hand_in_without_a_checker_is_not_sealed() -> None:
    assert compose_hand_in(ID, ATTEMPTS, NOON).seal == ""
