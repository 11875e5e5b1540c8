"""Many students who send at once: at set moments, or as fast as they are answered."""

from __future__ import annotations

import random
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from functools import partial
from itertools import cycle, islice
from typing import TYPE_CHECKING

from tests.support.load import SILENCE, Line
from workbook.wire.message import Judged

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tests.support.load import Pupil

#: Connections that are open at the same time [-].
CONNECTIONS = 16


@dataclass
class Rush:
    """What was answered, and how long it took."""

    said: Counter[str] = field(default_factory=Counter)
    #: From when each attempt was due until it was answered [s].
    times_s: list[float] = field(default_factory=list)
    took_s: float = 0.0


def rush(address: str, pupils: Sequence[Pupil], tries: int, seconds: float) -> Rush:
    """Send so many attempts of each student, spread over some seconds by chance."""
    chance = random.Random(1)  # noqa: S311 - hides nothing
    places = [at for at in range(len(pupils)) for _ in range(tries)]
    due = sorted((chance.uniform(0, seconds), at) for at in places)
    # A student's own attempts follow each other, as in their notebook.
    shares: list[list[tuple[float, Pupil]]] = [[] for _ in range(CONNECTIONS)]
    for moment_s, at in due:
        shares[at % CONNECTIONS].append((moment_s, pupils[at]))
    return _run(address, shares)


def send_all(address: str, pupils: Sequence[Pupil], attempts: int) -> Rush:
    """Send so many attempts, each connection the next when it has an answer."""
    return _run(
        address,
        [
            [(0.0, each) for each in islice(cycle(mine), attempts // CONNECTIONS)]
            for mine in (pupils[at::CONNECTIONS] for at in range(CONNECTIONS))
            if mine
        ],
        is_due=False,
    )


def _run(
    address: str, shares: Iterable[list[tuple[float, Pupil]]], *, is_due: bool = True
) -> Rush:
    found, began_s = Rush(), time.monotonic()
    send = partial(_send, found, address, began_s, is_due=is_due)
    with ThreadPoolExecutor(CONNECTIONS) as pool:
        list(pool.map(send, shares))
    found.took_s = time.monotonic() - began_s
    return found


def _send(
    found: Rush,
    address: str,
    began_s: float,
    share: Iterable[tuple[float, Pupil]],
    *,
    is_due: bool,
) -> None:
    line = Line(address)
    for moment_s, pupil in share:
        due_s = began_s + moment_s if is_due else time.monotonic()
        time.sleep(max(0.0, due_s - time.monotonic()))
        try:
            heard = line.ask(pupil.header, next(pupil.attempts))
        except SILENCE as error:
            found.said[type(error).__name__] += 1
            continue
        is_judged = isinstance(heard.statement, Judged)
        found.said["judged" if is_judged else f"status {heard.status}"] += 1
        found.times_s.append(time.monotonic() - due_s)
    line.close()
