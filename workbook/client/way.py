"""
Which way leads to the checker: a file beside the notebooks, a hub, or a child process.

The file is written when a course is issued for a service, and holds a token of one
sheet. On a hub the address comes from the environment, and the token is the one that
the student's server was given.
"""

from __future__ import annotations

import os
import re
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import msgspec
from msgspec import Struct
from typing_extensions import override

from workbook.client.absent import AbsentChecker, has_solver
from workbook.client.http import HttpChecker
from workbook.client.pipe import PipeChecker
from workbook.errors import TaskError

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from workbook.client.transport import Checker

#: The file beside the notebooks that says where the service is, and who asks.
WAY_FILE = "checker.json"

#: What a hub sets for a student's server: the service's address, and the token.
ADDRESS_NAME, TOKEN_NAME = "WORKBOOK_SERVICE", "JUPYTERHUB_API_TOKEN"

#: More than any token needs [byte].
_MAX_SIZE = 16_384

#: RFC 6750, 2.1: what a bearer token is made of.
_TOKEN = re.compile(r"[A-Za-z0-9._~+/-]+=*")

#: RFC 3986, 3.3: of a path, what needs no escape.
_PATH = re.compile(r"[A-Za-z0-9._~/@-]*")

_PORTS = {"http": 80, "https": 443}


class Way(Struct, frozen=True, forbid_unknown_fields=True):
    """An address of a service, and the token of whoever asks there."""

    address: str
    token: str

    @override
    def __repr__(self) -> str:
        return f"Way(address={self.address!r}, token='...')"

    @property
    def is_encrypted(self) -> bool:
        """Whether what is said there is encrypted, and the service certified."""
        return urlsplit(self.address).scheme == "https"

    @property
    def host(self) -> str:
        """The name or number of the machine."""
        return urlsplit(self.address).hostname or ""

    @property
    def port(self) -> int:
        """The port [-]."""
        split = urlsplit(self.address)
        return split.port or _PORTS[split.scheme]

    @property
    def prefix(self) -> str:
        """What stands before each place of the service; without a stroke at its end."""
        return urlsplit(self.address).path.rstrip("/")


def explain_address(address: str) -> str:
    """
    Say what is wrong with the address of a service.

    Parameters
    ----------
    address : str
        As it was given.

    Returns
    -------
    str
        In words that follow the address; empty when nothing is.

    Examples
    --------
    >>> explain_address("https://chem.example/checker")
    ''
    >>> explain_address("chem.example")
    'does not begin with http:// or https://'
    """
    try:
        split = urlsplit(address)
        has_port = split.port is None or split.port > 0
    except ValueError:
        return "is no address"
    wrong = ""
    if split.scheme not in _PORTS:
        wrong = "does not begin with http:// or https://"
    elif not split.hostname or not has_port or not address.isascii():
        wrong = "names no machine"
    elif "@" in split.netloc:
        wrong = "holds a name or a password, which does not belong there"
    elif split.query or split.fragment or not _PATH.fullmatch(split.path):
        wrong = "holds more than a machine and a path"
    return wrong


def encode_way(way: Way) -> bytes:
    """
    Return a way as the content of its file.

    Parameters
    ----------
    way : Way
        With a token of one sheet.

    Returns
    -------
    bytes
        JSON in UTF-8.

    Raises
    ------
    TaskError
        If nobody could go that way.
    """
    _check(way, "The service")
    return msgspec.json.format(msgspec.json.encode(way), indent=1) + b"\n"


def read_way(folder: Path) -> Way | None:
    """
    Return the way that a folder's file tells.

    Parameters
    ----------
    folder : Path
        The student's folder.

    Returns
    -------
    Way or None
        None when the folder has no such file.

    Raises
    ------
    TaskError
        If there is one that can't be used.
    """
    try:
        with (folder / WAY_FILE).open("rb") as file:
            text = file.read(_MAX_SIZE + 1)
    except FileNotFoundError:
        return None
    except OSError as error:
        msg = f"{WAY_FILE} can't be read: {error.strerror}."
        raise TaskError(msg) from error
    try:
        if len(text) <= _MAX_SIZE:
            way = msgspec.json.decode(text, type=Way)
            _check(way, WAY_FILE)
            return way
    except (msgspec.DecodeError, UnicodeDecodeError):
        # What stands there is not quoted: it may be a token.
        pass
    msg = f"{WAY_FILE} is damaged. Fetch it again, as it was issued."
    raise TaskError(msg) from None


def find_way(folder: Path, environment: Mapping[str, str]) -> Way | None:
    """
    Return the way from a folder to a service.

    Parameters
    ----------
    folder : Path
        The student's folder.
    environment : mapping of str to str
        Of the notebook's process.

    Returns
    -------
    Way or None
        None where there is no service.

    Raises
    ------
    TaskError
        If what is said of it can't be used.
    """
    way = read_way(folder)
    address = environment.get(ADDRESS_NAME, "")
    if way is not None or not address:
        return way
    token = environment.get(TOKEN_NAME, "")
    if not token:
        msg = (
            f"{ADDRESS_NAME} names a checker, and this notebook has no token for it. "
            f"Start your server anew, or tell your instructor."
        )
        raise TaskError(msg)
    way = Way(address, token)
    _check(way, ADDRESS_NAME)
    return way


def find_checker(folder: Path) -> Checker:
    """
    Return the checker of a folder; nothing is asked or started yet.

    Parameters
    ----------
    folder : Path
        The student's folder.

    Returns
    -------
    Checker
        A service where one is named, else a process of this machine; in a student
        image, one that says that there is none.

    Raises
    ------
    TaskError
        If what is said of a service can't be used.
    """
    way = find_way(folder, os.environ)
    if way is not None:
        return HttpChecker(way)
    return PipeChecker(folder) if has_solver() else AbsentChecker()


def _check(way: Way, place: str) -> None:
    """Refuse what would not reach a service, or would say more than it should."""
    if wrong := explain_address(way.address):
        msg = f"{place} names the address {way.address!r}, which {wrong}."
        raise TaskError(msg)
    if not _TOKEN.fullmatch(way.token):
        msg = f"{place} holds a token that can't be one. Fetch it again."
        raise TaskError(msg)
