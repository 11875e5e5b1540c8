"""The file that a student submits."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import msgspec
import pytest

from workbook.client.direct import DirectChecker
from workbook.client.handin import Sealing, build, save, seal
from workbook.errors import CheckerDiedError, TaskError
from workbook.wire.answer import Typed
from workbook.wire.handin import Attempt, HandIn, digest
from workbook.wire.message import Opened, Sealed
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.sheet import Sheet

SHEET = SheetId("autumn", "cold-cream", 1, "s07")
NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)


def attempt(number: int) -> Attempt:
    at = NOON + timedelta(minutes=number)
    return Attempt(f"a{number}", "wax_mass", Typed(f"{number} g"), at)


def test_attempts_stand_in_the_order_of_giving_and_once() -> None:
    made = build(SHEET, (attempt(2), attempt(1), attempt(2)), NOON)
    assert made.attempts == (attempt(1), attempt(2))


def test_the_digest_is_of_the_content() -> None:
    made = build(SHEET, (attempt(1),), NOON)
    assert made.digest == digest(SHEET, (attempt(1),), NOON)
    assert made.digest != build(SHEET, (attempt(2),), NOON).digest


def test_the_seal_is_the_checker_s() -> None:
    made = build(SHEET, (attempt(1),), NOON)
    sealing = seal(made, DirectChecker(lambda _: Sealed("5ea1")))
    assert (sealing.hand_in.seal, sealing.received) == ("5ea1", None)


def test_the_time_is_the_checker_s_where_it_tells_one() -> None:
    made = build(SHEET, (attempt(1),), NOON)
    later = NOON + timedelta(hours=1)
    sealing = seal(made, DirectChecker(lambda _: Sealed("5ea1", later)))
    assert (sealing.hand_in.at, sealing.received) == (NOON, later)


def test_without_a_checker_it_stays_unsealed(sheet: Sheet) -> None:
    def die(question: object) -> Sealed:
        raise CheckerDiedError(str(question), 1)

    made = build(SHEET, (attempt(1),), NOON)
    assert seal(made, DirectChecker(die)) == Sealing(made)
    assert seal(made, DirectChecker(lambda _: Opened(sheet))) == Sealing(made)


def test_the_file_reads_back_as_it_was(tmp_path: Path) -> None:
    made = build(SHEET, (attempt(1),), NOON)
    receipt = save(Sealing(made), tmp_path)
    assert receipt.path.name == "s07.handin.json"
    assert msgspec.json.decode(receipt.path.read_bytes(), type=HandIn) == made


def test_the_receipt_says_what_the_file_holds(tmp_path: Path) -> None:
    made = build(SHEET, (attempt(1), attempt(2)), NOON)
    receipt = save(Sealing(made), tmp_path)
    assert (receipt.at, receipt.attempts, receipt.is_sealed) == (NOON, 2, False)
    assert receipt.mark == made.digest[:8]


def test_a_later_hand_in_stands_beside_the_earlier(tmp_path: Path) -> None:
    first = save(Sealing(build(SHEET, (attempt(1),), NOON)), tmp_path).path
    before = first.read_bytes()
    second = save(Sealing(build(SHEET, (attempt(1), attempt(2)), NOON)), tmp_path).path
    assert second.name == "s07-2.handin.json"
    assert first.read_bytes() == before


def test_a_folder_that_can_t_be_written_is_told(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="hand-in can't be written to this folder"):
        save(Sealing(build(SHEET, (attempt(1),), NOON)), tmp_path / "gone")
