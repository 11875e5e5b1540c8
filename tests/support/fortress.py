"""What a siege is laid to: services on one database, and what of it can be killed."""

from __future__ import annotations

import tempfile
import time
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from tests.support.load import make_crowd, make_small_lab
from tests.support.postgres import need_programs, run_server
from tests.support.replica import Replica

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tests.support.postgres import Server
    from tests.support.siege import Mortal

#: How many services stand on which database.
KINDS = {"sqlite": 1, "postgres": 1, "replicas": 2}

#: How often a server is started that still finds what is left of the last [-].
_STARTS = 200


class Fortress(NamedTuple):
    """Services that answer, on one database."""

    course: Path
    addresses: Sequence[str]
    #: Of the database.
    database: str
    #: What can be killed, by what it is called.
    victims: Mapping[str, Mortal]


class Storeroom:
    """
    A server of PostgreSQL that is killed with all its processes.

    Parameters
    ----------
    server : Server
        It runs.
    """

    def __init__(self, server: Server) -> None:
        self._server = server

    def kill(self) -> None:
        """End every process of the server at once, as a power cut does."""
        self._server.crash()

    def start(self) -> None:
        """Start it again; what is left of the last may be in its way for a moment."""
        for _ in range(_STARTS):
            try:
                self._server.start()
            except RuntimeError:
                time.sleep(0.05)
            else:
                return
        self._server.start()


@contextmanager
def build(kind: str, students: int) -> Iterator[Fortress]:
    """Run what a kind is made of, and end it whatever happens."""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        course = make_crowd(folder, students, make_small_lab(folder))
        victims: dict[str, Mortal] = {}
        database = f"sqlite:///{folder / 'record.sqlite'}"
        if kind != "sqlite":
            server = stack.enter_context(run_server(need_programs()))
            database, victims["the database"] = server.make(), Storeroom(server)
        replicas = [Replica(course, database) for _ in range(KINDS[kind])]
        for number, replica in enumerate(replicas, start=1):
            stack.callback(replica.kill)
            replica.start()
            replica.wait()
            victims[f"service {number}"] = replica
        addresses = [each.address for each in replicas]
        yield Fortress(course, addresses, database, victims)
