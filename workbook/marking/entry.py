"""
What may be a hand-in, in a folder or in a ZIP: listed, and read only when asked.

Nothing is ever unpacked to the disk. A name is only looked at; a file is looked at
before it is opened, and its size before it is read and while it is, so that a link, a
pipe, a very large file or a ZIP that swells costs nothing.
"""

from __future__ import annotations

import os
import stat
import zlib
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Protocol
from zipfile import BadZipFile, ZipFile, ZipInfo

from workbook.errors import HandInError, TaskError
from workbook.marking.printable import to_printable

if TYPE_CHECKING:
    from datetime import tzinfo

#: The most that a hand-in may hold [byte]; a term's work is a hundredth of it.
MAX_SIZE = 2_000_000

#: More than any course hands in at once [-].
_MAX_ENTRIES = 500_000

#: Bit 0 of a ZIP entry's flags: encrypted. PKWARE, APPNOTE.TXT - .ZIP File Format
#: Specification, 4.4.4.
_ENCRYPTED = 0x1

#: What zipfile raises for an entry that is damaged, or packed in a way of its own.
DAMAGE = (BadZipFile, EOFError, NotImplementedError, OSError, RuntimeError, zlib.error)


class Entry(Protocol):
    """A file that may be a hand-in."""

    @property
    def name(self) -> str:
        """Its path below the folder, or in the ZIP, with nothing but print in it."""

    def read(self) -> bytes:
        """
        Return its content.

        Returns
        -------
        bytes
            At most `MAX_SIZE`; a `HandInError` where it is not to be read.
        """

    def written(self, zone: tzinfo) -> datetime | None:
        """
        Return when the file says that it was written.

        Parameters
        ----------
        zone : tzinfo
            The course's.

        Returns
        -------
        datetime or None
            None where it says nothing.
        """


@dataclass(frozen=True, slots=True)
class FolderEntry:
    """A file, or a link, in a folder."""

    name: str
    path: Path

    def read(self) -> bytes:
        """
        Return what the file holds.

        Returns
        -------
        bytes
            At most `MAX_SIZE`.

        Raises
        ------
        HandInError
            If it is no regular file, can't be read, or is too large.
        """
        try:
            return _read_file(self.path, self.name)
        except OSError as error:
            reason = f"it can't be read: {error.strerror}."
            raise HandInError(self.name, reason) from error

    def written(self, zone: tzinfo) -> datetime | None:
        """
        Return when the file was last written.

        Parameters
        ----------
        zone : tzinfo
            The course's.

        Returns
        -------
        datetime or None
            None where there is no such file any more.
        """
        try:
            return datetime.fromtimestamp(self.path.lstat().st_mtime, zone)
        except OSError:
            return None


def _read_file(path: Path, name: str) -> bytes:
    if not stat.S_ISREG(path.lstat().st_mode):
        raise HandInError(name, "it is a link or no regular file, and is not opened.")
    # The file may be changed for a link or a pipe after it was looked at.
    handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
    with os.fdopen(handle, "rb") as file:
        status = os.fstat(handle)
        if not stat.S_ISREG(status.st_mode):
            raise HandInError(name, "it was changed while it was opened.")
        if status.st_size > MAX_SIZE:
            raise HandInError(name, _say_size(status.st_size))
        return file.read(MAX_SIZE)


def _say_size(size: int) -> str:
    return f"it has {size} bytes, and a hand-in at most {MAX_SIZE}; it was not read."


@dataclass(frozen=True, slots=True)
class PackedEntry:
    """A file in a ZIP."""

    name: str
    archive: ZipFile
    info: ZipInfo

    def read(self) -> bytes:
        """
        Return what the file holds.

        Returns
        -------
        bytes
            At most `MAX_SIZE`, whatever the ZIP says of its size.

        Raises
        ------
        HandInError
            If it is no regular file, is damaged, locked or too large, or its name leads
            out of the ZIP.
        """
        if reason := _object(self.info):
            raise HandInError(self.name, reason)
        try:
            with self.archive.open(self.info) as file:
                content = file.read(MAX_SIZE + 1)
        except DAMAGE as error:
            reason = f"it can't be unpacked: {to_printable(str(error))}."
            raise HandInError(self.name, reason) from error
        if len(content) > MAX_SIZE:
            reason = f"it swells to more than {MAX_SIZE} bytes; the rest was not read."
            raise HandInError(self.name, reason)
        return content

    def written(self, zone: tzinfo) -> datetime | None:
        """
        Return when the ZIP says that the file was written.

        Parameters
        ----------
        zone : tzinfo
            The course's: a ZIP has local times, and does not say whose.

        Returns
        -------
        datetime or None
            None where it is no time.
        """
        try:
            return datetime(*self.info.date_time, tzinfo=zone)
        except ValueError:
            return None


def _object(info: ZipInfo) -> str:
    mode = info.external_attr >> 16
    path = PurePosixPath(info.filename.replace("\\", "/"))
    reason = ""
    if stat.S_IFMT(mode) not in {0, stat.S_IFREG}:
        reason = "it is a link or no regular file, and is not opened."
    elif path.is_absolute() or ".." in path.parts or ":" in path.parts[0]:
        reason = "its name leads out of the ZIP, and it is not read."
    elif info.flag_bits & _ENCRYPTED:
        reason = "it is locked by a password."
    elif info.file_size > MAX_SIZE:
        reason = _say_size(info.file_size)
    return reason


@dataclass(frozen=True, slots=True)
class StrangeEntry:
    """What is told of and never read."""

    name: str
    reason: str
    at: datetime | None = None

    def read(self) -> bytes:
        """
        Refuse.

        Returns
        -------
        bytes
            Never.

        Raises
        ------
        HandInError
            Always.
        """
        raise HandInError(self.name, self.reason)

    def written(self, zone: tzinfo) -> datetime | None:
        """
        Return no time.

        Parameters
        ----------
        zone : tzinfo
            The course's.

        Returns
        -------
        datetime or None
            None, unless it was made with one.
        """
        del zone
        return self.at


def list_entries(place: Path) -> list[Entry]:
    """
    Return what may be hand-ins, at any depth.

    A browser or a person may have put something before or after the name that the
    workbook gave: ``a1.handin (1).json``.

    Parameters
    ----------
    place : Path
        A folder, in which links to other folders are not followed, or a ZIP.

    Returns
    -------
    list of Entry
        In the order of their names. Links are among them, and ZIPs within: they are
        told of, and not opened.

    Raises
    ------
    TaskError
        If it is a file and no ZIP, or holds more than any course hands in.
    """
    found = _list_folder(place) if place.is_dir() else _list_packed(place)
    if len(found) > _MAX_ENTRIES:
        msg = f"{place} holds {len(found)} files; at most {_MAX_ENTRIES} are looked at."
        raise TaskError(msg)
    return sorted(found, key=lambda entry: entry.name)


def _list_folder(folder: Path) -> list[Entry]:
    found: list[Entry] = []
    for place, folders, files in os.walk(folder):
        links = [name for name in folders if Path(place, name).is_symlink()]
        for name in (*links, *files):
            path = Path(place, name)
            shown = to_printable(path.relative_to(folder).as_posix())
            if name in links or _is_named(name):
                found.append(FolderEntry(shown, path))
            elif name.lower().endswith(".zip"):
                found.append(StrangeEntry(shown, _ZIP_INSIDE))
    return found


def _list_packed(path: Path) -> list[Entry]:
    try:
        archive = ZipFile(path)
        infos = archive.infolist()
    except (BadZipFile, OSError) as error:
        msg = f"{path} is no folder and no ZIP that can be read: {error}."
        raise TaskError(msg) from error
    found: list[Entry] = []
    for info in infos:
        shown = to_printable(info.filename)
        name = PurePosixPath(info.filename).name
        if info.is_dir():
            continue
        if _is_named(name):
            found.append(PackedEntry(shown, archive, info))
        elif name.lower().endswith(".zip"):
            found.append(StrangeEntry(shown, _ZIP_INSIDE))
    return found


def _is_named(name: str) -> bool:
    return ".handin" in name and name.endswith(".json")


_ZIP_INSIDE = (
    "it is a ZIP inside, and was not opened: unpack it there, or give it to --handins "
    "by itself."
)
