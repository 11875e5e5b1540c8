"""Who asks on a JupyterHub: the student to whose server the hub gave the token."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tornado.web import HTTPError

from workbook.checker.caller import UNKNOWN, Caller
from workbook.errors import CheckerRefusedError, TaskError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from workbook.labfile.roster import Student

#: How long the hub's word is remembered [s].
_REMEMBERED_S = 60

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
    ) -> None:
        self._course = course
        self._students = students
        self._identify = identify

    def find(self, token: str) -> Caller:
        """
        Return whose token this is.

        Parameters
        ----------
        token : str
            As it came.

        Returns
        -------
        Caller
            For every lab of the course.

        Raises
        ------
        CheckerRefusedError
            If the hub does not know it, it is of no server of its owner's, the owner is
            not on the roster, or the hub can't be reached.
        """
        try:
            model = self._identify(token)
        except HTTPError as error:
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
    auth = HubAuth(cache_max_age=_REMEMBERED_S)
    return HubPorter(course, map_logins(roster), auth.user_for_token)


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
