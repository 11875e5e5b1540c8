"""
One archive of a course, from which it is marked again years later to the same marks.

It is a plain ZIP that can be read without the workbook. ``manifest.json`` in it names
the versions of everything that took part, and the fingerprint of every file.
"""

from __future__ import annotations

import hashlib
import platform
from importlib.metadata import PackageNotFoundError, version
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO, TypeAlias, TypedDict
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import click
import msgspec
import tomlkit

from workbook.command.bundle import (
    COURSE_FILE,
    bundle_labs,
    bundle_people,
    rewrite_course,
)
from workbook.command.recording import reach_recording
from workbook.errors import HandInError, TaskError
from workbook.labfile.course import read_course
from workbook.marking.entry import list_entries
from workbook.marking.record import RECORD_FILE
from workbook.solver.source import KEY_FILE
from workbook.store import write_file

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import datetime, tzinfo

    from typing_extensions import Unpack

    from workbook.labfile.course import Course
    from workbook.wire.sheet import SheetId

#: What the archive says of itself.
MANIFEST_FILE = "manifest.json"

#: The folders of the hand-ins, of a service's record, and of the marks.
HANDINS_FOLDER, RECORD_FOLDER, MARKS_FOLDER = "handins", "record", "marks"

#: What may change a verdict: named in the manifest.
_PARTS = ("lab-workbook", "msgspec", "numpy", "pydantic", "sympy", "tree-sitter-toml")

#: The first moment that a ZIP can say [year, month, day, hour, minute, second].
_NO_TIME = (1980, 1, 1, 0, 0, 0)

_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
_THERE = click.Path(exists=True, path_type=Path)


#: A file of a ZIP: what is said of it, and what it holds or where that lies.
Packed: TypeAlias = tuple[ZipInfo, bytes | Path]

#: So much of a large file is held at once [byte].
CHUNK = 1_000_000


class Manifest(msgspec.Struct, forbid_unknown_fields=True):
    """The versions and the files of an archive."""

    versions: dict[str, str]
    #: SHA-256 of each file, by name.
    files: dict[str, str]
    #: The time zone in which the times of the hand-ins are written.
    zone: str


class _Given(TypedDict):
    """What a course has beside its own files."""

    handins: Path | None
    record: str | None
    marks: Path | None


def list_versions() -> dict[str, str]:
    """
    Return the versions of everything that may change a verdict.

    Returns
    -------
    dict of str to str
        By the name of each part, Python's own among them.
    """
    found = {"python": platform.python_version()}
    for part in _PARTS:
        try:
            found[part] = version(part)
        except PackageNotFoundError:
            found[part] = "not installed"
    return found


@click.command("archive")
@click.argument("course", type=_FILE)
@click.option("--handins", type=_THERE, help="A folder of hand-ins, or a ZIP.")
@click.option(
    "--record",
    help="In place of hand-ins, the record of `workbook serve`: the address of its "
    "database.",
)
@click.option("--marks", type=_THERE, help="The folder of marks that was made of them.")
@click.option("--to", type=click.Path(path_type=Path), required=True, help="The ZIP.")
@click.option("--with-key", "has_key", is_flag=True, help="Put the key in as well.")
def archive_course(
    course: Path,
    to: Path,
    *,
    has_key: bool,
    **given: Unpack[_Given],
) -> None:
    """Put COURSE with its labs, roster, hand-ins and marks into one ZIP."""
    handins, record, marks = given["handins"], given["record"], given["marks"]
    if handins is not None and record is not None:
        msg = "Give either --handins or --record: one of them was marked."
        raise TaskError(msg)
    found = read_course(course)
    files = {COURSE_FILE: tomlkit.dumps(rewrite_course(found)).encode()}
    files |= bundle_labs(found)
    files |= bundle_people(found, has_key=has_key)
    packed = chain(
        (_pack(name, content) for name, content in files.items()),
        [] if marks is None else _pack_marks(marks),
        [] if handins is None else _pack_hand_ins(handins, found.calendar.zone),
        [] if record is None else _pack_record(found, record),
    )
    sums: dict[str, str] = {}
    zone = str(found.calendar.zone)
    write_file(to, lambda file: _zip(file, packed, zone, sums))
    apart = f"it holds {KEY_FILE}: keep it as secret as that"
    if not has_key:
        apart = (
            f"keep {course.parent / KEY_FILE} apart, without which nothing is marked"
        )
    click.echo(f"Wrote {len(sums)} files to {to}. Next: {apart}.")


def _pack_marks(folder: Path) -> Iterator[Packed]:
    if not (folder / RECORD_FILE).is_file():
        msg = f"{folder} holds no {RECORD_FILE}, so it is no folder of marks."
        raise TaskError(msg)
    for path in sorted(folder.rglob("*")):
        if path.is_file() and not path.is_symlink():
            name = path.relative_to(folder).as_posix()
            yield _pack(f"{MARKS_FOLDER}/{name}", path)


def _pack_hand_ins(place: Path, zone: tzinfo) -> Iterator[Packed]:
    """Take what can be read; what can't was told of when it was marked."""
    with click.progressbar(list_entries(place), label="Packing") as entries:
        for entry in entries:
            try:
                content = entry.read()
            except HandInError as error:
                click.echo(f"Left out: {error}", err=True)
                continue
            at = entry.written(zone)
            yield _pack(f"{HANDINS_FOLDER}/{entry.name}", content, at)


def _pack_record(course: Course, address: str) -> Iterator[Packed]:
    """Take each sheet of a record, with all that was answered, and when."""
    found = reach_recording(address, course.name, course.folders)
    with click.progressbar(found.sheets, label="Packing") as sheets:
        for sheet in sheets:
            content = msgspec.json.encode(found.read(sheet))
            yield _pack(_name_sheet(sheet), msgspec.json.format(content, indent=1))


def _name_sheet(sheet: SheetId) -> str:
    return f"{RECORD_FOLDER}/{sheet.lab}/{sheet.revision}/{sheet.student}.json"


def _pack(name: str, content: bytes | Path, at: datetime | None = None) -> Packed:
    # What has no time of its own has the first that a ZIP can say, so that the same
    # course gives the same bytes.
    info = ZipInfo(name, _NO_TIME if at is None else at.timetuple()[:6])
    info.compress_type = ZIP_DEFLATED
    info.external_attr = 0o600 << 16
    return info, content


def _zip(
    file: BinaryIO, packed: Iterable[Packed], zone: str, sums: dict[str, str]
) -> None:
    """Write a ZIP, one file after the other, and note the fingerprint of each."""
    with ZipFile(file, "w", ZIP_DEFLATED) as archive:
        for info, content in packed:
            sums[info.filename] = _put(archive, info, content)
        manifest = Manifest(list_versions(), sums, zone)
        text = msgspec.json.format(msgspec.json.encode(manifest), indent=1)
        _put(archive, *_pack(MANIFEST_FILE, text))


def _put(archive: ZipFile, info: ZipInfo, content: bytes | Path) -> str:
    """Write a file into a ZIP, and return its fingerprint."""
    if isinstance(content, bytes):
        archive.writestr(info, content)
        return hashlib.sha256(content).hexdigest()
    fingerprint = hashlib.sha256()
    # By its size a ZIP knows whether it must count beyond 4 GiB.
    info.file_size = content.stat().st_size
    with content.open("rb") as file, archive.open(info, "w") as packed:
        while chunk := file.read(CHUNK):
            fingerprint.update(chunk)
            packed.write(chunk)
    return fingerprint.hexdigest()
