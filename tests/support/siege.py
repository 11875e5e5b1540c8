"""
A service under load whose processes are killed, and what becomes of the attempts.

Clients send each attempt under the same name until it is answered with a verdict, and
some again after that. What was answered so has to be in the record once.
"""

from __future__ import annotations

import random
import threading
import time
from collections import Counter
from contextlib import closing
from dataclasses import dataclass, field
from itertools import cycle
from typing import TYPE_CHECKING, Protocol

from typing_extensions import override

from tests.support.load import SILENCE, Line
from tests.support.recorded import list_attempts
from tests.support.serving import PATIENCE_S
from workbook.checker.database import Database
from workbook.checker.record import AttemptRecord
from workbook.wire.message import Judged

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tests.support.load import Pupil
    from workbook.wire.message import JudgeAttempt
    from workbook.wire.sheet import SheetId

#: Clients at work at the same time [-].
CLIENTS = 4

#: How many attempts are acknowledged between two kills, at most [-].
_BETWEEN = 8

#: How long is waited before a kill, at most [s], so that it meets any moment of one.
_MOMENT_S = 0.03

#: How long an answer is waited for before it is asked for again [s].
_CLIENT_S = 3.0

#: How long nobody answers at most before a client gives up [s].
_GIVE_UP_S = 2 * PATIENCE_S

#: How often an attempt is sent again that was answered [-].
_AGAIN = 0.1

_COME_AGAIN = frozenset({429, 503})


class Mortal(Protocol):
    """What can be killed, and started again."""

    def kill(self) -> None:
        """End it as a power cut does."""

    def start(self) -> None:
        """Start it again."""


@dataclass
class Siege:
    """What happened, and what clients were told."""

    #: Every attempt that was answered with a verdict, by sheet and name.
    acknowledged: dict[tuple[SheetId, str], JudgeAttempt] = field(default_factory=dict)
    #: What else was counted: kills by what was killed, sendings by their end.
    counts: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)


class Client(threading.Thread):
    """
    One client of several, with pupils of its own.

    Parameters
    ----------
    siege : Siege
        Where it notes what it was told.
    addresses : sequence of str
        Of every replica.
    pupils : sequence of Pupil
        For whom it sends.
    chance : random.Random
        Decides what is sent again.
    """

    def __init__(
        self,
        siege: Siege,
        addresses: Sequence[str],
        pupils: Sequence[Pupil],
        chance: random.Random,
    ) -> None:
        super().__init__(daemon=True)
        self._siege = siege
        self._all = [Line(each, _CLIENT_S) for each in addresses]
        self._lines = cycle(self._all)
        self._line = next(self._lines)
        self._pupils = cycle(pupils)
        self._chance = chance
        self.is_done = threading.Event()

    @override
    def run(self) -> None:
        """Send attempts until told to stop."""
        try:
            while not self.is_done.is_set():
                pupil = next(self._pupils)
                question = next(pupil.attempts)
                self._deliver(pupil, question)
                if self._chance.random() < _AGAIN:
                    self._siege.counts["sent again after their verdict"] += 1
                    self._deliver(pupil, question)
        except RuntimeError as error:
            self._siege.faults.append(str(error))
        finally:
            for line in self._all:
                line.close()

    def _deliver(self, pupil: Pupil, question: JudgeAttempt) -> None:
        end_s = time.monotonic() + _GIVE_UP_S
        while not self._send(pupil, question):
            if time.monotonic() > end_s:
                msg = f"{question.attempt} was not answered in {_GIVE_UP_S} s."
                raise RuntimeError(msg)
            self._line = next(self._lines)
            time.sleep(0.02)
        self._siege.acknowledged[question.sheet, question.attempt] = question

    def _send(self, pupil: Pupil, question: JudgeAttempt) -> bool:
        counts = self._siege.counts
        try:
            heard = self._line.ask(pupil.header, question)
        except SILENCE as error:
            counts[f"not answered: {type(error).__name__}"] += 1
            return False
        if isinstance(heard.statement, Judged):
            counts["answered with a verdict"] += 1
            return True
        if heard.status not in _COME_AGAIN:
            msg = f"{question.attempt}: status {heard.status}, {heard.statement}."
            raise RuntimeError(msg)
        counts[f"asked to come again: status {heard.status}"] += 1
        return False


def besiege(
    addresses: Sequence[str],
    victims: Mapping[str, Mortal],
    pupils: Sequence[Pupil],
    kills: int,
    seed: int,
) -> Siege:
    """Kill one of the victims so many times under load, and return what happened."""
    siege, chance = Siege(), random.Random(seed)  # noqa: S311 - hides nothing
    clients = [
        Client(siege, addresses, pupils[at::CLIENTS], random.Random(f"{seed} {at}"))  # noqa: S311 - hides nothing
        for at in range(CLIENTS)
    ]
    for client in clients:
        client.start()
    for _ in range(kills):
        _wait(siege, chance.randint(1, _BETWEEN))
        time.sleep(chance.uniform(0, _MOMENT_S))
        name = chance.choice(sorted(victims))
        victims[name].kill()
        siege.counts[f"kills of {name}"] += 1
        victims[name].start()
    _wait(siege, _BETWEEN)
    for client in clients:
        client.is_done.set()
    for client in clients:
        client.join(_GIVE_UP_S)
    return siege


def _wait(siege: Siege, attempts: int) -> None:
    """Wait until so many more attempts are acknowledged: the service works again."""
    enough = siege.counts["answered with a verdict"] + attempts
    end_s = time.monotonic() + _GIVE_UP_S
    while siege.counts["answered with a verdict"] < enough and not siege.faults:
        if time.monotonic() > end_s:
            siege.faults.append(f"No verdict in {_GIVE_UP_S} s.")
        time.sleep(0.002)


def find_losses(siege: Siege, address: str) -> dict[str, int]:
    """Return how many attempts are lost, counted twice, or known to nobody."""
    given = Counter((each.sheet, each.step) for each in siege.acknowledged.values())
    ((course, lab),) = {(sheet.course, sheet.lab) for sheet, _ in given}
    with closing(Database(address, may_make=False)) as database:
        record = AttemptRecord(database)
        attempts, counted = (
            list_attempts(record, course, lab),
            record.progress(course, lab),
        )
    found = Counter(
        (sheet, each.id) for sheet, tries in attempts.items() for each in tries
    )
    return {
        "acknowledged attempts": len(siege.acknowledged),
        "recorded attempts": found.total(),
        "acknowledged and lost": len(siege.acknowledged.keys() - found.keys()),
        "recorded twice": sum(times > 1 for times in found.values()),
        "recorded and never acknowledged": len(found.keys() - siege.acknowledged),
        "steps that count more attempts than were given": sum(
            each.attempts > given[each.sheet, each.step] for each in counted
        ),
    }
