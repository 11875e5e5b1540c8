"""
What a student may try on the checker of a course, over HTTP: each is refused.

The attacker is known as one student and goes for another's sheet, for more attempts, or
for what the checker knows. On the system below it: `tests/hub/test_hub.py`.
"""

from __future__ import annotations

import json
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

import msgspec
import pytest
from starlette.testclient import TestClient

from tests.support.attack import EARLIER, Attack, judge, list_attacks, put
from tests.support.caller import A1, B2, BEN, KEY, Clock, bear, open_database, try_step
from tests.support.recorded import list_attempts
from tests.support.soap import COURSE, LAB, STUDENTS, answer_rightly, make_course
from workbook.checker.app import build_app
from workbook.checker.counter import Counter
from workbook.checker.exchange import Exchange
from workbook.checker.limit import BURST, MOST_A_DAY
from workbook.checker.record import AttemptRecord
from workbook.checker.token import TokenPorter
from workbook.solver.desk import Desk
from workbook.solver.source import CourseSource
from workbook.wire.answer import Typed
from workbook.wire.message import (
    Held,
    JudgeAttempt,
    Judged,
    OpenSheet,
    PassGate,
    Refused,
    Statement,
    Why,
    read_reply,
)

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from workbook.wire.answer import Answer

#: How many attempts the tests' own course allows at the balance.
MOST = 3

ATTACKS = list(list_attacks())


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    """Return a course of three students."""
    return CourseSource(make_course(tmp_path_factory.mktemp("course")))


@pytest.fixture(scope="module")
def desk(source: CourseSource) -> Desk:
    return Desk(source)


@pytest.fixture(scope="module")
def rights(source: CourseSource) -> dict[str, dict[str, Answer]]:
    """Return the right answers, by student."""
    cases = source.cases(LAB, STUDENTS)
    return dict(zip(STUDENTS, map(answer_rightly, cases), strict=True))


class Target:
    """A checker in memory, with its record, and one attempt in it."""

    def __init__(self, desk: Desk, folder: Path) -> None:
        self.database = open_database(folder)
        self.record = AttemptRecord(self.database)
        self.record.take(A1, try_step("dish", "40.00 g", EARLIER))
        clock = Clock()
        self._porter = TokenPorter(KEY, COURSE, clock)
        self._counter = Counter(desk, self.record, {LAB: {"dish": MOST}}, clock)
        self.begin()

    def begin(self) -> None:
        """Begin anew, as after a restart: nobody was too fast so far."""
        self.exchange = Exchange(self._porter, self._counter)
        self.client = TestClient(build_app(self.exchange, self.database, "/lab"))

    def ask(self, body: bytes, header: str = "") -> Statement:
        """Return what the checker states."""
        return self.exchange.reply(header or bear(), body).reply.statement

    def tell(self) -> tuple[int, int]:
        """Return how many attempts and hand-ins are recorded, of everybody."""
        attempts = list_attempts(self.record, COURSE, LAB).values()
        taken = self.record.hand_ins(COURSE, LAB).values()
        return sum(map(len, attempts)), sum(map(len, taken))


@pytest.fixture
def target(desk: Desk, tmp_path: Path) -> Iterator[Target]:
    """Start a checker; what goes wrong in it is an answer, as for anybody outside."""
    made = Target(desk, tmp_path)
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def shared(desk: Desk, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Target]:
    """Start a checker for all that is refused, and so changes nothing."""
    made = Target(desk, tmp_path_factory.mktemp("record"))
    yield made
    made.database.close()


def send(target: Target, attack: Attack) -> tuple[int, bytes]:
    """Send an attack, and return what comes back; another's pace does not count."""
    target.begin()
    answer = target.client.request(
        attack.method, attack.path, content=attack.body, headers=attack.headers
    )
    return answer.status_code, answer.content


@pytest.mark.parametrize("attack", ATTACKS, ids=lambda attack: attack.says)
def test_an_attack_is_refused_and_leaves_nothing(
    shared: Target, attack: Attack
) -> None:
    before = shared.tell()
    status, content = send(shared, attack)
    assert status == attack.status
    if attack.why is not None:
        said = read_reply(content).statement
        assert isinstance(said, Refused)
        assert said.why is attack.why
    assert shared.tell() == before


@pytest.mark.parametrize("attack", ATTACKS, ids=lambda attack: attack.says)
def test_what_is_said_of_an_attack_says_nothing_of_others(
    shared: Target, attack: Attack
) -> None:
    text = send(shared, attack)[1].decode()
    for word in ("Traceback", "b2", "Fenn", "5a5a", "course.toml", "site-packages"):
        assert word not in text


def test_there_are_enough_attacks_and_each_is_another() -> None:
    assert len({attack.says for attack in ATTACKS}) == len(ATTACKS)
    assert len(ATTACKS) >= 60


def test_thirty_at_once_get_no_attempt_more_than_the_limit(target: Target) -> None:
    bodies = [judge(text=f"{41 + n}.00 g", name=f"race{n}") for n in range(30)]
    with ThreadPoolExecutor(30) as crowd:
        said = list(crowd.map(target.ask, bodies))
    judged = [each for each in said if isinstance(each, Judged)]
    refused = [each.why for each in said if isinstance(each, Refused)]
    # One of the three was taken before.
    assert len(judged) == MOST - 1
    assert set(refused) == {Why.ATTEMPTS}
    assert target.tell() == (MOST, 0)


def test_thirty_at_once_with_one_name_are_one_attempt(target: Target) -> None:
    with ThreadPoolExecutor(30) as crowd:
        said = list(crowd.map(target.ask, [judge(name="storm")] * 30))
    assert {msgspec.json.encode(each) for each in said} == {
        msgspec.json.encode(said[0])
    }
    assert target.tell() == (2, 0)


def test_a_storm_of_answers_is_slowed_down(target: Target) -> None:
    said = [target.ask(judge("no_such_step")) for _ in range(BURST + 20)]
    last = said[-1]
    assert isinstance(last, Refused)
    assert last.why is Why.RATE


def test_one_student_s_storm_slows_nobody_else(target: Target) -> None:
    for _ in range(BURST + 20):
        target.ask(judge("no_such_step"))
    assert not isinstance(target.ask(put(OpenSheet(B2)), bear(BEN)), Refused)


def test_no_day_takes_more_answers_than_a_person_gives(target: Target) -> None:
    for number in range(MOST_A_DAY):
        target.record.take(A1, try_step("soap_mass", f"{number}.00 g"))
    said = target.ask(judge("soap_mass", "12.34 g"))
    assert isinstance(said, Refused)
    assert said.why is Why.RATE


def test_the_gate_believes_no_answer_that_was_never_given(
    target: Target, rights: dict[str, dict[str, Answer]]
) -> None:
    said = target.ask(put(PassGate(A1, rights["a1"])))
    assert isinstance(said, Held)


def test_no_verdict_rests_on_answers_that_were_never_given(target: Target) -> None:
    # A made-up mass of oil, from which this amount would follow.
    made_up: dict[str, Answer] = {"oil_mass": Typed("885.45 g")}
    question = JudgeAttempt(A1, "oil_amount", Typed("1.00 mol"), made_up, "made-up")
    said = target.ask(put(question))
    assert isinstance(said, Judged)
    assert said.verdict.outcome.value not in {"right", "follows"}


def test_an_attempt_s_name_of_another_student_tells_nothing(target: Target) -> None:
    said = target.ask(judge(name=EARLIER, text="39.00 g", sheet=B2), bear(BEN))
    assert isinstance(said, Judged)
    assert target.tell() == (2, 0)


@pytest.mark.parametrize("page", ["health", "metrics"])
def test_open_pages_name_nobody_and_no_value(
    target: Target, rights: dict[str, dict[str, Answer]], page: str
) -> None:
    dish = rights["a1"]["dish"]
    assert isinstance(dish, Typed)
    target.ask(judge(text=dish.text, name="right"))
    text = target.client.get(f"/lab/{page}").text
    for word in ("a1", "b2", dish.text, dish.text.split()[0], bear()[7:]):
        assert f'"{word}"' not in text
        assert f"{word}\n" not in text
    assert COURSE not in text


def test_the_log_holds_no_answer_and_no_token(
    target: Target, capfd: pytest.CaptureFixture[str]
) -> None:
    target.ask(judge(text="43.21 g", name="logged"))
    target.ask(judge(text="43.21 g"), "Bearer forged.token")
    logged = "".join(capfd.readouterr())
    for word in ("43.21", "forged", bear()[7:], "Bearer"):
        assert word not in logged


def test_a_message_in_pieces_is_not_read_beyond_its_limit(target: Target) -> None:
    pieces = iter([b" " * 65_536] * 8)
    answer = target.client.post(
        "/lab/ask", content=pieces, headers={"Authorization": bear()}
    )
    assert answer.status_code == 413


def test_a_second_header_with_a_token_does_not_count(target: Target) -> None:
    headers = [("Authorization", bear()), ("Authorization", bear(BEN))]
    answer = target.client.post("/lab/ask", content=put(OpenSheet(B2)), headers=headers)
    assert answer.status_code in {401, 403}
    assert json.loads(answer.content)["statement"]["why"] == "caller"
