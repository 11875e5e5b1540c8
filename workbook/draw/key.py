"""The secret of a course: from it and a name every value of every student follows."""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
from typing import TYPE_CHECKING, NoReturn

from typing_extensions import override

from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path

#: Length of a key [byte]: that of the hash it is used with (RFC 2104, section 3).
KEY_LENGTH = 32

#: Between the parts of a message: no name may hold it.
_SEPARATOR = "\x00"


class CourseKey:
    """
    A course's secret; it shows itself to nobody.

    Parameters
    ----------
    secret : bytes
        32 bytes.

    Raises
    ------
    TaskError
        If the secret has another length.
    """

    __slots__ = ("_secret",)

    def __init__(self, secret: bytes) -> None:
        if len(secret) != KEY_LENGTH:
            msg = f"A course key has {KEY_LENGTH} bytes; this one has {len(secret)}."
            raise TaskError(msg)
        self._secret = secret

    @override
    def __repr__(self) -> str:
        return "CourseKey(********)"

    @override
    def __reduce__(self) -> NoReturn:
        msg = "A course key is not pickled or copied: it stays where it was read."
        raise TypeError(msg)

    def number(self, *parts: str) -> int:
        """
        Return the number that belongs to a name.

        Parameters
        ----------
        *parts : str
            The name, part by part.

        Returns
        -------
        int
            From 0 to 2**256 - 1, the same on every machine [-].

        References
        ----------
        .. [1] H. Krawczyk, M. Bellare, R. Canetti, HMAC: Keyed-Hashing for Message
           Authentication, RFC 2104, 1997; SHA-256 by FIPS 180-4.
        """
        return int.from_bytes(self._digest(parts), "big")

    def seal(self, *parts: str) -> str:
        """
        Return the seal of a text: nobody without the key can make it.

        Parameters
        ----------
        *parts : str
            What is sealed, part by part.

        Returns
        -------
        str
            64 hexadecimal digits.
        """
        return self._digest(("seal", *parts)).hex()

    def is_seal(self, seal: str, *parts: str) -> bool:
        """
        Tell whether a seal is that of a text.

        Parameters
        ----------
        seal : str
            As it came.
        *parts : str
            What was sealed, part by part.

        Returns
        -------
        bool
            Found without telling by its time where the two differ.
        """
        came = seal.encode(errors="surrogatepass")
        return hmac.compare_digest(came, self.seal(*parts).encode())

    def write(self, path: Path) -> None:
        """
        Write the key to a file that only its owner can read.

        Parameters
        ----------
        path : Path
            A file that does not exist yet.

        Raises
        ------
        FileExistsError
            If it does: a key is never overwritten.
        """
        with open(path, "x", encoding="ascii", opener=_open_for_owner) as file:
            file.write(self._secret.hex() + "\n")

    def _digest(self, parts: tuple[str, ...]) -> bytes:
        name = _SEPARATOR.join(parts)
        if name.count(_SEPARATOR) != len(parts) - 1:
            msg = f"A part of a name holds a null character: {parts!r}."
            raise ValueError(msg)
        message = name.encode(errors="surrogatepass")
        return hmac.digest(self._secret, message, hashlib.sha256)


def _open_for_owner(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def new_key() -> CourseKey:
    """
    Return a key that nobody has had before.

    Returns
    -------
    CourseKey
        From the system's own source of randomness.
    """
    return CourseKey(secrets.token_bytes(KEY_LENGTH))


def write_key(key: CourseKey, path: Path) -> None:
    """
    Write a key to a file that only its owner can read.

    Parameters
    ----------
    key : CourseKey
        What is kept.
    path : Path
        A file that does not exist yet.

    Raises
    ------
    TaskError
        If it does: a key that is overwritten takes every value with it.
    """
    try:
        key.write(path)
    except FileExistsError:
        msg = f"{path} exists already. A course key is never overwritten."
        raise TaskError(msg) from None


def read_key(path: Path) -> CourseKey:
    """
    Return the key that a file holds.

    Parameters
    ----------
    path : Path
        What `write_key` wrote.

    Returns
    -------
    CourseKey
        The course's secret.

    Raises
    ------
    TaskError
        If the file is not there, can't be opened, or holds no key.
    """
    try:
        secret = bytes.fromhex(path.read_text(encoding="ascii"))
    except FileNotFoundError:
        msg = f"{path}: the course key is not there. Without it no value can be drawn."
        raise TaskError(msg) from None
    except OSError as error:
        msg = f"{path}: the course key can't be opened: {error.strerror}."
        raise TaskError(msg) from error
    except ValueError:
        secret = b""
    if len(secret) != KEY_LENGTH:
        msg = f"{path}: this is not a course key; {KEY_LENGTH * 2} hex digits are."
        raise TaskError(msg)
    return CourseKey(secret)
