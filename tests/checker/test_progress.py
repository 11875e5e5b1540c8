"""How far a class has come, beside a count one by one."""

from __future__ import annotations

import random
from collections import Counter
from contextlib import closing
from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec.structs import replace

from tests.support.recorded import make_record, name_record
from tests.support.soap import COURSE, LAB, NOON, name_sheet
from workbook.checker.database import Database
from workbook.checker.progress import Progress, count_progress
from workbook.wire.answer import Typed
from workbook.wire.handin import Attempt
from workbook.wire.verdict import NO_ATTEMPT, Outcome

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.wire.sheet import SheetId

SAID = (None, *sorted(Outcome, key=str))


def count_one_by_one(
    sent: list[tuple[SheetId, Attempt, Outcome | None]],
) -> dict[tuple[SheetId, str], Progress]:
    numbers: Counter[tuple[SheetId, str]] = Counter()
    found = {}
    for sheet, attempt, said in sent:
        if said in NO_ATTEMPT:
            continue
        key = (sheet, attempt.step)
        numbers[key] += 1
        found[key] = Progress(sheet, attempt.step, numbers[key], said, attempt.at)
    return found


def test_the_count_is_that_of_counting_one_by_one(tmp_path: Path) -> None:
    record = make_record(tmp_path / "r.sqlite")
    pick = random.Random(7)  # noqa: S311 - nothing is hidden here
    sent = []
    for number in range(120):
        sheet = replace(name_sheet(pick.choice("abc")), revision=pick.choice((1, 2)))
        step, at = pick.choice(("dish", "lye")), NOON + timedelta(seconds=number)
        attempt = Attempt(f"n{number}", step, Typed(f"{number} g"), at)
        said = pick.choice(SAID)
        record.take(sheet, attempt)
        if said is not None:
            record.note(sheet, attempt.id, said)
        sent.append((sheet, attempt, said))
    expected = count_one_by_one(sent)
    with (
        closing(Database(name_record(tmp_path / "r.sqlite"))) as database,
        database.read() as connection,
    ):
        found = count_progress(connection, COURSE, LAB, None)
        some = count_progress(connection, COURSE, LAB, {"a", "c"})
    assert {(each.sheet, each.step): each for each in found} == expected
    assert len(found) == len(expected)
    assert set(some) == {
        each for each in expected.values() if each.sheet.student != "b"
    }
