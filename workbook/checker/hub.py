"""Who asks on a JupyterHub: the student to whose server the hub gave the token."""

from __future__ import annotations

import asyncio
import threading
from functools import partial
from typing import TYPE_CHECKING, Any

from tornado.web import HTTPError

from workbook.checker.caller import UNKNOWN, Caller
from workbook.checker.memory import Memory
from workbook.errors import CheckerRefusedError, TaskError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from jupyterhub.services.auth import HubAuth

    from workbook.labfile.roster import Student

#: How long the hub is waited for: it answers in milliseconds [s].
_PATIENCE_S = 3.0

_SILENT = "The hub does not say who asks at the moment."
_NOT_LISTED = (
    "The checker knows your login, {login!r}, but it is not on the roster. Your "
    "answers are kept; tell your instructor."
)


class HubPorter:
    """
    Finds who asks from the token that a hub gave to a student's server.

    Parameters
    ----------
    course : str
        The course's name.
    students : mapping of str to str
        The students' ids, by their names on the hub.
    identify : callable
        Gives what the hub knows of a token's owner, or None.
    memory : Memory or None
        What the hub said before; None for nothing yet.

    Notes
    -----
    Only a token of the owner's own server counts. Another's server may hold one too,
    from a visit of the owner; it must not speak for them here.
    """

    def __init__(
        self,
        course: str,
        students: Mapping[str, str],
        identify: Callable[[str], Mapping[str, Any] | None],
        memory: Memory | None = None,
    ) -> None:
        self._memory = memory or Memory()
        self._course = course
        self._students = students
        self._identify = identify

    def find(self, token: str, address: str = "") -> Caller:
        """
        Return whose token this is.

        Parameters
        ----------
        token : str
            As it came.
        address : str
            Where from.

        Returns
        -------
        Caller
            For every lab of the course.

        Raises
        ------
        CheckerRefusedError
            If the hub does not know it, it is of no server of its owner's, the owner is
            not on the roster, or the hub can't be reached; or if too many came from
            there that were not known, and this one is not known yet.
        """
        known = self._memory.recall(token)
        if known is not None:
            return known
        self._memory.check_pace(token, address)
        try:
            caller = self._ask(token)
        except CheckerRefusedError as error:
            if error.code == Why.CALLER.value:
                self._memory.keep_refused(token, address, str(error))
            raise
        self._memory.keep(token, caller)
        return caller

    def _ask(self, token: str) -> Caller:
        """Ask the hub, and make a caller of what it says."""
        try:
            model = self._identify(token)
        except (HTTPError, TimeoutError) as error:
            raise CheckerRefusedError(Why.AWAY.value, _SILENT) from error
        if model is None or not _is_of_own_server(model):
            raise CheckerRefusedError(Why.CALLER.value, UNKNOWN)
        login = str(model["name"])
        student = self._students.get(login)
        if student is None:
            raise CheckerRefusedError(Why.CALLER.value, _NOT_LISTED.format(login=login))
        return Caller(self._course, student)


def open_hub(course: str, roster: Sequence[Student]) -> HubPorter:
    """
    Return what finds who asks on the hub that started this process.

    Parameters
    ----------
    course : str
        The course's name.
    roster : sequence of Student
        Who takes the course.

    Returns
    -------
    HubPorter
        It asks the hub, with the token of the service in the environment.

    Raises
    ------
    TaskError
        If the package of JupyterHub is not installed.
    """
    try:
        from jupyterhub.services.auth import HubAuth  # noqa: PLC0415 - an extra
    except ModuleNotFoundError as error:
        msg = "A service of a hub needs: pip install 'lab-workbook[hub]'."
        raise TaskError(msg) from error
    loop = asyncio.new_event_loop()
    threading.Thread(target=loop.run_forever, daemon=True, name="hub").start()
    return HubPorter(course, map_logins(roster), partial(_identify, HubAuth(), loop))


def _identify(
    auth: HubAuth, loop: asyncio.AbstractEventLoop, token: str
) -> Mapping[str, Any] | None:
    """Ask the hub, several threads at once, and none for long."""
    # The library would put one question after the other, and wait without end; and its
    # memory has no bounds.
    asking = auth.user_for_token(token, use_cache=False, sync=False)
    asked = asyncio.run_coroutine_threadsafe(asking, loop)
    try:
        found: Mapping[str, Any] | None = asked.result(_PATIENCE_S)
    except TimeoutError:
        asked.cancel()
        raise
    return found


def map_logins(roster: Sequence[Student]) -> dict[str, str]:
    """
    Return the students' ids by their names on the hub.

    Parameters
    ----------
    roster : sequence of Student
        With their logins, where those are not their ids.

    Returns
    -------
    dict of str to str
        By each name as the roster has it, and in small letters, as a hub writes it.
    """
    names = {(student.login or student.id): student.id for student in roster}
    return {name.lower(): student for name, student in names.items()} | names


def _is_of_own_server(model: Mapping[str, Any]) -> bool:
    """Tell whether a hub gave a token to a server of the owner's own."""
    name, scopes = model.get("name"), model.get("scopes") or ()
    return model.get("kind") == "user" and any(
        scope == f"users:activity!user={name}"
        or scope.startswith(f"access:servers!server={name}/")
        for scope in map(str, scopes)
    )
