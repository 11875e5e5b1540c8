"""
A service as one process or several, from its start to its end.

Asked to end, it refuses what is new for a moment, finishes what was begun, and ends
with the status 0.
"""

from __future__ import annotations

import asyncio
import multiprocessing
import os
import signal
import socket
import sys
import threading
from contextlib import suppress
from datetime import UTC, datetime
from functools import partial
from multiprocessing.connection import wait
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
import uvicorn
from msgspec import Struct
from uvicorn.supervisors import Multiprocess

from workbook.checker.app import build_app
from workbook.checker.caller import Porters
from workbook.checker.connection import Connection
from workbook.checker.counter import serve_course
from workbook.checker.database import Database
from workbook.checker.exchange import Exchange
from workbook.checker.hub import open_hub
from workbook.checker.log import configure_log, tell
from workbook.checker.metric import FOLDER_VARIABLE
from workbook.checker.record import AttemptRecord
from workbook.checker.scratch import make_scratch
from workbook.checker.token import TokenPorter
from workbook.draw.key import read_key
from workbook.errors import TaskError
from workbook.labfile.enrolment import read_students
from workbook.solver.crowd import CrowdSource
from workbook.solver.source import KEY_FILE

if sys.platform != "win32":
    import resource

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import FrameType

    from starlette.applications import Starlette

    from workbook.checker.caller import Porter
    from workbook.solver.source import CourseSource

#: What a process of a service is told by the one that starts it.
SETTING_VARIABLE = "WORKBOOK_SERVE"

#: That a hub started this process, and manages it.
HUB_VARIABLE = "JUPYTERHUB_API_TOKEN"

#: How long new questions are refused before nothing listens any more [s].
_NOTICE_S = 1.0

#: How long a question that was begun may take at the end [s].
_FINISH_S = 30

#: How long a process may be silent before another takes its place [s].
_SILENCE_S = 60

#: How long a connection is kept for a next question [s].
_KEPT_S = 75

#: How many connections may wait to be taken [-].
_BACKLOG = 1024


class Setting(Struct, frozen=True, forbid_unknown_fields=True):
    """What a process of a service has to know."""

    #: The course file.
    course: str
    #: The address of the database.
    database: str
    #: What stands before every address: empty, or a path that starts with a slash.
    prefix: str = ""


def listen(host: str, port: int) -> socket.socket:
    """
    Take a port.

    Parameters
    ----------
    host : str
        A name or an address of this machine.
    port : int
        Which; 0 for any that is free [-].

    Returns
    -------
    socket
        Bound; what comes waits till it is served.

    Raises
    ------
    TaskError
        If the port is taken, or the host is not this machine.
    """
    try:
        family = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
        return socket.create_server((host, port), family=family, backlog=_BACKLOG)
    except OSError as error:
        msg = f"Nothing can be served at {host}:{port}: {error.strerror}."
        raise TaskError(msg) from error


def serve(setting: Setting, listener: socket.socket, workers: int) -> None:
    """
    Serve a course until this process is told to end.

    Parameters
    ----------
    setting : Setting
        Which course, which database; it was prepared before.
    listener : socket
        Of `listen`.
    workers : int
        How many processes judge [-].
    """
    _open_many()
    os.environ[SETTING_VARIABLE] = msgspec.json.encode(setting).decode()
    config = uvicorn.Config(
        "workbook.checker.launch:make_app",
        factory=True,
        workers=workers,
        http=Connection,
        ws="none",
        log_config=None,
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_keep_alive=_KEPT_S,
        timeout_graceful_shutdown=_FINISH_S,
        timeout_worker_healthcheck=_SILENCE_S,
    )
    for each in (signal.SIGTERM, signal.SIGINT):
        # The server raises the signal again once it is done: it has been obeyed then.
        signal.signal(each, _do_nothing)
    if workers == 1:
        uvicorn.Server(config).run(sockets=[listener])
        return
    with make_scratch() as folder:
        os.environ[FOLDER_VARIABLE] = str(folder)
        Multiprocess(config, sockets=[listener]).run()


def _open_many() -> None:
    """Let this process and its children have as many connections as the system does."""
    if sys.platform != "win32":
        _, most = resource.getrlimit(resource.RLIMIT_NOFILE)
        # Some systems name no limit here, and take none.
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_NOFILE, (most, most))


def make_app() -> Starlette:
    """
    Return the application of one process, by what the environment tells.

    Returns
    -------
    Starlette
        With a solver of its own.

    Raises
    ------
    AuthorError
        If the course file, its roster or one of its labs has a mistake.
    TaskError
        If the key is not there, or the database's address is wrong.
    """
    configure_log()
    threading.Thread(target=_follow, daemon=True, name="follow").start()
    setting = msgspec.json.decode(os.environ[SETTING_VARIABLE], type=Setting)
    source = CrowdSource(Path(setting.course))
    database = Database(setting.database)
    record = AttemptRecord(database)
    exchange = Exchange(find_porter(source), serve_course(source, record, read_clock))
    on_start = partial(_start, exchange)
    return build_app(exchange, database, setting.prefix, on_start)


def find_porter(source: CourseSource) -> Porter:
    """
    Return what finds who asks: by the tokens of sheets, and of a hub if there is one.

    Parameters
    ----------
    source : CourseSource
        The course.

    Returns
    -------
    Porter
        Sheets' tokens are looked at first: that costs nothing.

    Raises
    ------
    TaskError
        If the key is not there, or the package of JupyterHub where a hub is.
    """
    course = source.course
    key = read_key(course.path.parent / KEY_FILE)
    tokens = TokenPorter(key, course.name, read_clock)
    if HUB_VARIABLE not in os.environ:
        return tokens
    roster = read_students(course.roster, course.classes)
    return Porters(tokens, open_hub(course.name, roster))


def _start(exchange: Exchange) -> None:
    """Watch for the end."""
    loop = asyncio.get_running_loop()
    for each in (signal.SIGTERM, signal.SIGINT):
        end = signal.getsignal(each)
        if callable(end):
            signal.signal(each, partial(_stop, exchange, loop, end))
    tell("started", process=os.getpid())


def _stop(
    exchange: Exchange,
    loop: asyncio.AbstractEventLoop,
    end: Callable[[int, FrameType | None], object],
    number: int,
    _: FrameType | None,
) -> None:
    """Refuse what is new for a moment, then let the server end."""
    if exchange.is_stopping:
        return
    exchange.is_stopping = True
    tell("stopping", process=os.getpid())
    loop.call_soon_threadsafe(loop.call_later, _NOTICE_S, end, number, None)


def _follow() -> None:
    """End this process when the one that started it is gone."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os.kill(os.getpid(), signal.SIGTERM)


def read_clock() -> datetime:
    """
    Return the time that counts.

    Returns
    -------
    datetime
        The service's own, in UTC.
    """
    return datetime.now(UTC)


def _do_nothing(number: int, frame: FrameType | None) -> None:
    """Obey no further: the server has ended."""
