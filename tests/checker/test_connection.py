"""
What no client of HTTP sends: each is refused, and others are served meanwhile.

What is to be refused stands in RFC 9112: 2.2 and 5 (lines and headers), 3.2 (one host),
6.1 and 6.3 (length and encoding), 7.1 (chunks); 9.6 tells how a connection is closed.
"""

from __future__ import annotations

import socket
import time
from typing import TYPE_CHECKING

import pytest

from tests.support.caller import A1, ADA, DAY, KEY, ask_of
from tests.support.rawline import (
    CLOSED,
    RawAttack,
    dial,
    exchange,
    list_raw_attacks,
    read_statuses,
    write,
)
from tests.support.serving import PATIENCE_S, serve
from tests.support.soap import make_course
from workbook.checker.launch import read_clock
from workbook.checker.record import open_record
from workbook.checker.token import make_token
from workbook.wire.message import Judged, Opened, OpenSheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.support.serving import Service

pytestmark = pytest.mark.service

HEADER = f"Bearer {make_token(KEY, ADA, read_clock() + DAY)}"

#: How many are slow at the same time.
SLOW = 200

ATTACKS = list(list_raw_attacks(HEADER))


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """Serve a course of three students."""
    with serve(make_course(tmp_path_factory.mktemp("served"))) as service:
        yield service


@pytest.mark.parametrize("attack", ATTACKS, ids=lambda attack: attack.says)
def test_what_no_client_sends_is_refused(running: Service, attack: RawAttack) -> None:
    came = exchange(running.address, attack.sent, len(attack.statuses))
    statuses = read_statuses(came)
    if CLOSED in attack.statuses:
        assert len(statuses) <= 1
        assert set(statuses) <= set(attack.statuses)
    else:
        assert statuses == attack.statuses
    assert b"Traceback" not in came
    assert b'"b2"' not in came


def test_each_attack_is_another() -> None:
    assert len({attack.says for attack in ATTACKS}) == len(ATTACKS)
    assert len({attack.sent for attack in ATTACKS}) == len(ATTACKS)


def test_after_all_of_them_it_answers_and_nothing_is_recorded(running: Service) -> None:
    for attack in ATTACKS[::10]:
        exchange(running.address, attack.sent, len(attack.statuses))
    assert isinstance(running.ask(HEADER, OpenSheet(A1)).statement, Opened)
    address = f"sqlite:///{running.log.parent / 'course.record.sqlite'}"
    record = open_record(address)
    assert record.tries(A1) == ()
    record.close()


def test_no_other_machine_is_asked_for_a_page_of_it(running: Service) -> None:
    # RFC 9112, 3.2.2: an address as a whole is read, and is one's own page or none.
    with socket.create_server(("127.0.0.1", 0)) as listener:
        port = listener.getsockname()[1]
        first = f"GET http://127.0.0.1:{port}/health HTTP/1.1"
        came = exchange(running.address, write(first=first), 1)
        assert b'"database":"there"' in came
        listener.settimeout(0.1)
        with pytest.raises(TimeoutError):
            listener.accept()


def begin_slowly(address: str, sent: bytes) -> socket.socket:
    """Open a connection, and send the beginning of a request."""
    line = dial(address)
    line.sendall(sent)
    return line


def drip(lines: list[socket.socket]) -> list[socket.socket]:
    """Send one byte more on each, and return those that are still open."""
    still = []
    for line in lines:
        try:
            line.sendall(b"x")
        except OSError:
            line.close()
        else:
            still.append(line)
    return still


def test_who_is_slow_is_let_go_and_holds_nobody_up(running: Service) -> None:
    head = write(b"", "X-Name: a", header=HEADER)[:-4]
    body = write(b"{", header=HEADER, length="100")
    sent = (head, body, b"", b"P")
    lines = [begin_slowly(running.address, sent[at % 4]) for at in range(SLOW)]
    for number in range(10):
        said = running.ask(HEADER, ask_of("dish", f"4{number}.00 g")).statement
        assert isinstance(said, Judged)
    end_s = time.monotonic() + PATIENCE_S
    while lines and time.monotonic() < end_s:
        lines = drip(lines)
        time.sleep(0.5)
    assert lines == []
