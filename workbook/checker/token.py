"""
The token of an issued sheet: it says who may ask about what, until when.

It is signed with a secret that follows from the course key. Whoever holds it is taken
for the student, so it lies in their own folder and nowhere else.
"""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import msgspec
from itsdangerous import BadData, URLSafeSerializer
from msgspec import Struct

from workbook.checker.caller import UNKNOWN, Caller
from workbook.errors import CheckerRefusedError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.draw.key import CourseKey

#: What the secret is made for: the seal of a hand-in is no secret of a token.
_PURPOSE = "checker token"

#: What the signature is made for.
_SALT = "workbook sheet"

#: No token of ours is longer [character]; no more is looked into.
_MOST_CHARACTERS = 1000

_OVER = (
    "The time for which this folder may ask the checker is over. Your answers are "
    "kept; ask your instructor for the folder anew."
)


class _Content(Struct, frozen=True, forbid_unknown_fields=True):
    """What a token says."""

    course: str
    lab: str | None
    student: str
    until: datetime


def make_token(key: CourseKey, caller: Caller, until: datetime) -> str:
    """
    Return a token for a student.

    Parameters
    ----------
    key : CourseKey
        The course's secret.
    caller : Caller
        Who may ask, about what.
    until : datetime
        When it ends, with its time zone.

    Returns
    -------
    str
        Letters, digits and a few signs that need no quotes in a header or an address.
    """
    content = _Content(caller.course, caller.lab, caller.student, until.astimezone(UTC))
    return str(_sign(key, caller.course).dumps(msgspec.to_builtins(content)))


def read_token(key: CourseKey, course: str, token: str, now: datetime) -> Caller:
    """
    Return whose token this is.

    Parameters
    ----------
    key : CourseKey
        The course's secret.
    course : str
        The course's name.
    token : str
        As it came.
    now : datetime
        By the service's clock.

    Returns
    -------
    Caller
        The student to whom it was given.

    Raises
    ------
    CheckerRefusedError
        If it was not made with this key for this course, or its time is over.
    """
    refused = CheckerRefusedError(Why.CALLER.value, UNKNOWN)
    if len(token) > _MOST_CHARACTERS or not token.isascii():
        raise refused
    try:
        content = msgspec.convert(_sign(key, course).loads(token), _Content)
    except (BadData, msgspec.ValidationError) as error:
        raise refused from error
    if content.course != course:
        raise refused
    if now >= content.until:
        raise CheckerRefusedError(Why.CALLER.value, _OVER)
    return Caller(course, content.student, content.lab)


class TokenPorter:
    """
    Finds who asks from the token of an issued sheet.

    Parameters
    ----------
    key : CourseKey
        The course's secret.
    course : str
        The course's name.
    clock : callable
        Gives the time, with its zone.
    """

    def __init__(
        self, key: CourseKey, course: str, clock: Callable[[], datetime]
    ) -> None:
        self._key = key
        self._course = course
        self._clock = clock

    def find(self, token: str, address: str = "") -> Caller:
        """
        Return whose token this is.

        Parameters
        ----------
        token : str
            As it came.
        address : str
            Where from; to look at a token costs nothing, wherever it comes from.

        Returns
        -------
        Caller
            The student to whom it was given.

        Raises
        ------
        CheckerRefusedError
            If it was not made for this course, or its time is over.
        """
        del address
        return read_token(self._key, self._course, token, self._clock())


def _sign(key: CourseKey, course: str) -> URLSafeSerializer:
    secret = key.seal(_PURPOSE, course)
    return URLSafeSerializer(
        secret, salt=_SALT, signer_kwargs={"digest_method": hashlib.sha256}
    )
