"""A lab report of a student's own work, and nothing else."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.front.stage import PREDICTION, READING, SHEET, TEXT
from tests.support.page_text import find_numbers, read_page
from workbook.front.labreport import write_report
from workbook.wire.answer import Built, Chosen, Derived, Placed, Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from pathlib import Path

    from tests.front.stage import FakeJudge
    from workbook.client.session import Session
    from workbook.wire.answer import Answer

NOON = datetime(2026, 10, 1, 12, tzinfo=UTC)
HOSTILE = '"><script>alert(1)</script><img src=x onerror=alert(2)>'

ANSWERS: dict[str, Answer] = {
    "oil_volume": Typed("12.04 mL"),
    "oil_mass": Built((Placed("density", turned=True),), "13.217 g"),
    "acid_part": Derived(("3A = 844.38", "A = 281.46"), "281.46 g/mol"),
    "limiting": Chosen(("wax",)),
    "share": Typed("17,5 %"),
}


def answer(session: Session, answers: dict[str, Answer]) -> str:
    """Give answers, and return the report of them."""
    for step, given in answers.items():
        session.submit(step, given)
    return write_report(session.sheet, session.history.stand(), NOON)


@pytest.fixture
def report(session: Session, judge: FakeJudge) -> str:
    judge.verdicts["oil_mass"] = Verdict(Outcome.SLIP, "A factor is upside down.")
    return answer(session, ANSWERS)


def section(report: str, title: str) -> str:
    """Return what stands under a heading."""
    return report.partition(f"<h2>{title}</h2>")[2].partition("</section>")[0]


def test_the_head_names_sheet_student_and_date(report: str) -> None:
    texts, _ = read_page(report)
    for fact in ("Cold cream", "s07", "autumn", "cold-cream, revision 1"):
        assert fact in texts
    assert NOON.astimezone().strftime("%d %B %Y, %H:%M %Z") in texts


def test_a_reading_stands_as_typed_beside_what_was_seen(report: str) -> None:
    row = section(report, "Data")
    assert READING.instrument in row
    assert READING.seen in row
    assert '<bdi class="typed">12.04 mL</bdi>' in row
    assert "Agrees." in row


def test_working_and_verdict_of_each_step_stand_together(report: str) -> None:
    block = section(report, "Working").split("<article>")[1]
    assert "What mass of oil is that?" in block
    assert "<mfrac>" in block
    assert "A slip.</strong> A factor is upside down." in block


def test_the_results_carry_a_word_each(report: str) -> None:
    results = section(report, "Results")
    assert [results.count(word) for word in ("A slip.", "Agrees.")] == [1, 2]
    assert "17,5 %" in results


def test_what_was_not_answered_is_told(report: str) -> None:
    told = section(report, "Not answered")
    assert "<li>What do you wear?</li>" in told
    assert "What share is wax?" not in told


def test_every_number_was_written_by_the_student_or_shown(
    report: str, folder: Path
) -> None:
    record = (folder / "cold-cream-postlab.attempts.jsonl").read_text(encoding="utf-8")
    sheet = msgspec.json.encode(SHEET).decode()
    written = NOON.astimezone().strftime("%d %B %Y, %H:%M %Z")
    known = find_numbers(record) | find_numbers(sheet) | find_numbers(written)
    found = {number for text in read_page(report)[0] for number in find_numbers(text)}
    assert {"12.04", "13.217", "844.38", "281.46", "17,5", "0.911"} <= found
    assert found - known == set()


def test_free_text_after_the_lab_is_the_discussion(session: Session) -> None:
    sheet = msgspec.structs.replace(
        session.sheet, prelab=(PREDICTION,), postlab=(TEXT,)
    )
    session.submit("notes", Typed("Some soap\nstayed in the brine."))
    session.submit("feel", Chosen(("soft",)))
    report = write_report(sheet, session.history.stand(), NOON)
    assert "Some soap\nstayed in the brine." in section(report, "Discussion")
    assert "<li>soft</li>" in section(report, "Before the lab")
    assert "<h2>Working</h2>" not in report


def test_an_answer_that_waits_for_its_verdict_is_put_by(
    session: Session, judge: FakeJudge
) -> None:
    judge.fault = OSError("gone")
    with pytest.raises(OSError, match="gone"):
        session.submit("share", Typed("12 %"))
    report = write_report(session.sheet, session.history.stand(), NOON)
    assert "Not judged yet." in section(report, "Results")


def test_text_that_was_no_attempt_is_not_reported(
    session: Session, judge: FakeJudge
) -> None:
    judge.verdicts["share"] = Verdict(Outcome.UNREAD, "Not a number.")
    assert "loads" not in answer(session, {"share": Typed("loads")})


@pytest.mark.parametrize(
    ("step", "given"),
    [
        ("oil_volume", Typed(HOSTILE)),
        ("share", Typed(HOSTILE)),
        ("oil_mass", Built((), HOSTILE)),
        ("acid_part", Derived((HOSTILE,), HOSTILE)),
    ],
)
def test_hostile_text_stays_text(session: Session, step: str, given: Answer) -> None:
    texts, tags = read_page(answer(session, {step: given}))
    assert {"script", "img"}.isdisjoint(tags)
    assert HOSTILE in "".join(texts)


def test_a_hostile_sheet_stays_text(session: Session) -> None:
    loud = msgspec.structs.replace(
        session.sheet,
        title=HOSTILE,
        about=HOSTILE,
        id=msgspec.structs.replace(SHEET.id, student='"; } </style>' + HOSTILE),
        rules=(HOSTILE,),
    )
    _, tags = read_page(write_report(loud, session.history.stand(), NOON))
    assert {"script", "img"}.isdisjoint(tags)
    assert tags.count("style") == 1


def test_the_page_runs_and_fetches_nothing(report: str) -> None:
    _, tags = read_page(report)
    assert {"script", "link", "iframe", "object"}.isdisjoint(tags)
    assert "default-src 'none'" in report
    assert "url(" not in report
    assert "http://" not in report
    assert "https://" not in report


def test_a_picture_is_let_in_as_an_image_that_can_run_nothing(
    session: Session,
) -> None:
    drawn = msgspec.structs.replace(READING, picture='<svg><script>"</script></svg>')
    sheet = msgspec.structs.replace(session.sheet, postlab=(drawn,))
    session.submit("oil_volume", Typed("12.0 mL"))
    report = write_report(sheet, session.history.stand(), NOON)
    assert '<img src="data:image/svg+xml,%3Csvg' in report
    assert "script" not in read_page(report)[1]
