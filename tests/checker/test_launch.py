"""A service as it runs: real processes, a real port, a real end."""

from __future__ import annotations

import json
import os
import signal
import socket
import threading
import time
from typing import TYPE_CHECKING

import pytest

from tests.support.caller import A1, ADA, DAY, KEY, ask_of
from tests.support.recorded import list_attempts
from tests.support.serving import PATIENCE_S, Heard, Service, serve
from tests.support.soap import COURSE, LAB, make_course
from workbook.checker import launch
from workbook.checker.caller import Caller, Porters
from workbook.checker.launch import (
    Setting,
    find_porter,
    listen,
    make_app,
    read_clock,
)
from workbook.checker.record import open_record
from workbook.checker.token import TokenPorter, make_token
from workbook.errors import TaskError
from workbook.wire.message import Judged, Opened, OpenSheet, Refused

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from tests.support.postgres import Server
    from workbook.solver.source import CourseSource
    from workbook.wire.message import JudgeAttempt

pytestmark = pytest.mark.service


def bear_now() -> str:
    """Return the header of the first student, by the real clock."""
    return f"Bearer {make_token(KEY, ADA, read_clock() + DAY)}"


def race(questions: Iterable[tuple[Service, JudgeAttempt]]) -> list[Heard]:
    """Put several questions at once, and return what was answered."""
    heard: list[Heard] = []

    def ask(service: Service, question: JudgeAttempt) -> None:
        heard.append(service.ask(bear_now(), question))

    threads = [threading.Thread(target=ask, args=each) for each in questions]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    return heard


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """Serve a course with two processes that judge."""
    folder = tmp_path_factory.mktemp("served")
    with serve(make_course(folder), "--workers", "2", "--prefix", "/x/y/") as service:
        yield service


def test_a_running_service_answers(running: Service) -> None:
    assert running.address.endswith("/x/y")
    heard = running.ask(bear_now(), OpenSheet(A1))
    assert (heard.status, type(heard.statement)) == (200, Opened)
    assert json.loads(running.get("health"))["database"] == "there"


def list_pids(service: Service) -> set[object]:
    """Return the processes that told that they started."""
    lines = map(json.loads, service.log.read_text(encoding="utf-8").splitlines())
    return {line["process"] for line in lines if line["event"] == "started"}


def test_two_processes_judge_and_are_counted_together(running: Service) -> None:
    for number in range(6):
        running.ask(bear_now(), ask_of("dish", f"4{number}.00 g"))
    end_s = time.monotonic() + PATIENCE_S
    while len(list_pids(running)) < 2 and time.monotonic() < end_s:
        time.sleep(0.05)
    assert len(list_pids(running)) == 2
    page = running.get("metrics")
    assert 'workbook_questions_total{kind="JudgeAttempt",result="Judged"} 6.0' in page


def test_racing_retries_over_two_processes_count_once(running: Service) -> None:
    question = ask_of("oil_mass", "9.99 g", "raced")
    heard = race((running, question) for _ in range(6))
    assert {type(each.statement) for each in heard} == {Judged}
    address = f"sqlite:///{running.log.parent / 'course.record.sqlite'}"
    record = open_record(address)
    (tried,) = list_attempts(record, COURSE, LAB).values()
    record.close()
    assert [each.id for each in tried].count("raced") == 1


def test_the_log_holds_no_answer_and_no_token(running: Service) -> None:
    header = bear_now()
    running.ask(header, ask_of("dish", "47.11 g", "secretive"))
    running.ask(header[:-1], ask_of("dish", "47.11 g"))
    text = running.log.read_text(encoding="utf-8")
    assert '"result": "Judged"' in text
    assert "47.11" not in text
    assert header.removeprefix("Bearer ")[:40] not in text


def test_a_process_that_is_killed_is_replaced(running: Service) -> None:
    before = list_pids(running)
    os.kill(int(str(min(before, key=str))), signal.SIGKILL)
    end_s = time.monotonic() + 60
    while len(list_pids(running)) == len(before):
        assert time.monotonic() < end_s, "no process took the place of the killed one"
        time.sleep(0.2)
    assert running.ask(bear_now(), OpenSheet(A1)).status == 200


def test_a_service_that_is_told_to_end_finishes_what_was_begun(
    tmp_path: Path,
) -> None:
    heard: list[Heard] = []

    def ask(question: JudgeAttempt) -> None:
        heard.append(service.ask(bear_now(), question))

    with serve(make_course(tmp_path)) as service:
        first = [ask_of("dish", f"4{each}.00 g") for each in range(4)]
        threads = [threading.Thread(target=ask, args=(each,)) for each in first]
        for each in threads:
            each.start()
        time.sleep(0.05)
        service.process.send_signal(signal.SIGTERM)
        time.sleep(0.2)
        late = service.ask(bear_now(), ask_of("dish", "50.00 g"))
        assert (late.status, late.again_s > 0) == (503, True)
        for each in threads:
            each.join()
        assert service.process.wait(60) == 0
    assert {type(each.statement) for each in heard} <= {Judged, Refused}
    assert Judged in {type(each.statement) for each in heard}


def test_processes_end_with_the_one_that_started_them(tmp_path: Path) -> None:
    with serve(make_course(tmp_path), "--workers", "2") as service:
        assert service.stop(signal.SIGKILL) == -signal.SIGKILL
        host, _, port = service.address.removeprefix("http://").rpartition(":")
        end_s = time.monotonic() + 60
        while True:
            with socket.socket() as found:
                if found.connect_ex((host, int(port))):
                    break
            assert time.monotonic() < end_s, "somebody still listens"
            time.sleep(0.2)


def test_two_replicas_share_one_record_and_its_limits(
    tmp_path: Path, postgres: Server
) -> None:
    path = make_course(tmp_path)
    limit = f"[marks.attempts.steps.{LAB}]\ndish = 2\n"
    path.write_text(path.read_text(encoding="utf-8") + limit, encoding="utf-8")
    there = {"WORKBOOK_DATABASE": postgres.make()}
    with serve(path, environment=there) as one, serve(path, environment=there) as two:
        heard = race(
            (replica, ask_of("dish", f"{n}{n}.00 g"))
            for n in range(1, 5)
            for replica in (one, two)
        )
        assert {type(each.statement) for each in heard} == {Judged, Refused}
        record = open_record(there["WORKBOOK_DATABASE"])
        # Both replicas were sent each answer; the same one twice is one attempt.
        assert len({each.content for each in record.tries(A1)}) == 2
        record.close()
        postgres.stop()
        away = one.ask(bear_now(), ask_of("oil_mass", "9.99 g", "late"))
        assert (away.status, away.again_s > 0) == (503, True)
        postgres.start()
        back = two.ask(bear_now(), ask_of("oil_mass", "9.99 g", "late"))
        assert isinstance(back.statement, Judged)


def test_a_service_waits_for_a_database_that_comes_up_later(
    tmp_path: Path, postgres: Server
) -> None:
    there = {"WORKBOOK_DATABASE": postgres.make()}
    postgres.stop()
    later = threading.Timer(2, postgres.start)
    later.start()
    with serve(make_course(tmp_path), environment=there) as service:
        assert '"event": "fault"' in service.log.read_text(encoding="utf-8")
        heard = service.ask(bear_now(), ask_of("dish", "41.00 g"))
        assert isinstance(heard.statement, Judged)
    later.join()


def test_a_port_that_is_taken_is_told() -> None:
    with listen("127.0.0.1", 0) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(TaskError, match=f"served at 127.0.0.1:{port}: Address"):
            listen("127.0.0.1", port)


def test_a_host_of_another_machine_is_told() -> None:
    # 192.0.2.0/24 is for documentation: RFC 5737.
    with pytest.raises(TaskError, match=r"Nothing can be served at 192\.0\.2\.1"):
        listen("192.0.2.1", 0)


def test_a_process_is_told_what_it_serves(
    course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(launch, "configure_log", lambda: None)
    setting = f'{{"course":"{course}","database":"sqlite:///{tmp_path}/r.sqlite"}}'
    monkeypatch.setenv(launch.SETTING_VARIABLE, setting)
    assert make_app().routes
    assert Setting(str(course), f"sqlite:///{tmp_path}/r.sqlite").prefix == ""


def test_a_hub_is_asked_only_where_there_is_one(
    source: CourseSource, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(launch.HUB_VARIABLE, raising=False)
    assert isinstance(find_porter(source), TokenPorter)
    monkeypatch.setenv(launch.HUB_VARIABLE, "t")
    porter = find_porter(source)
    assert isinstance(porter, Porters)
    token = bear_now().removeprefix("Bearer ")
    assert porter.find(token) == Caller(COURSE, "a1", LAB)
