"""A course unpacked from its archive, every file held against its fingerprint."""

from __future__ import annotations

import hashlib
import os
import stat
from datetime import datetime
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING
from zipfile import BadZipFile, ZipFile
from zoneinfo import ZoneInfo

import click
import msgspec

from workbook.command.archive import (
    CHUNK,
    HANDINS_FOLDER,
    MANIFEST_FILE,
    MARKS_FOLDER,
    RECORD_FOLDER,
    Manifest,
    list_versions,
)
from workbook.command.bundle import COURSE_FILE
from workbook.errors import TaskError
from workbook.marking.entry import DAMAGE
from workbook.solver.source import KEY_FILE
from workbook.store import make_folder

if TYPE_CHECKING:
    from collections.abc import Iterator

#: The most that one file of an archive may hold [byte]: the record of the marks of a
#: million students has 15 000 000 000.
_MAX_SIZE = 20_000_000_000

_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.command("unpack")
@click.argument("archive", type=_FILE)
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    required=True,
    help="The folder to make.",
)
@click.option("--key", type=_FILE, help="The key, where it was kept apart.")
def unpack_course(archive: Path, to: Path, key: Path | None) -> None:
    """Make a folder of a course from its ARCHIVE, to mark it again."""
    with make_folder(to) as draft:
        try:
            with ZipFile(archive) as packed:
                manifest = _unpack(packed, draft)
        except DAMAGE as error:
            msg = f"{archive} can't be unpacked: {error}."
            raise TaskError(msg) from error
        if key is not None:
            (draft / KEY_FILE).write_bytes(key.read_bytes())
    for sentence in _compare_versions(manifest):
        click.echo(sentence)
    click.echo(f"Wrote {len(manifest.files)} files to {to}. {_say_next(to)}")


def _unpack(packed: ZipFile, folder: Path) -> Manifest:
    try:
        content = packed.read(MANIFEST_FILE)
        manifest = msgspec.json.decode(content, type=Manifest)
        zone = ZoneInfo(manifest.zone)
    except (KeyError, ValueError, msgspec.DecodeError) as error:
        msg = f"it has no {MANIFEST_FILE} that can be read: {error}"
        raise BadZipFile(msg) from error
    for name, expected in manifest.files.items():
        _write(packed, name, expected, folder)
        info = packed.getinfo(name)
        at = datetime(*info.date_time, tzinfo=zone).timestamp()
        os.utime(folder / name, (at, at))
    return manifest


def _write(packed: ZipFile, name: str, expected: str, folder: Path) -> None:
    path = PurePosixPath(name)
    try:
        info = packed.getinfo(name)
    except KeyError:
        msg = f"{name!r} is missing"
        raise BadZipFile(msg) from None
    is_plain = stat.S_IFMT(info.external_attr >> 16) in {0, stat.S_IFREG}
    leads_out = path.is_absolute() or ".." in path.parts or "\\" in name or ":" in name
    if leads_out or not is_plain or info.file_size > _MAX_SIZE:
        msg = f"{name!r} is no file that an archive of a course holds"
        raise BadZipFile(msg)
    place = folder / path
    place.parent.mkdir(parents=True, exist_ok=True)
    fingerprint = hashlib.sha256()
    with packed.open(info) as content, place.open("wb") as file:
        while chunk := content.read(CHUNK):
            fingerprint.update(chunk)
            file.write(chunk)
    if fingerprint.hexdigest() != expected:
        msg = f"{name!r} was changed after it was packed"
        raise BadZipFile(msg)


def _compare_versions(manifest: Manifest) -> Iterator[str]:
    present = list_versions()
    for part, was in sorted(manifest.versions.items()):
        now = present.get(part, "none")
        if now != was:
            yield f"Another version of {part} than then: {now}; it was {was}."


def _say_next(to: Path) -> str:
    given = f"--handins {to / HANDINS_FOLDER}"
    if (to / RECORD_FOLDER).is_dir():
        given = f"--record {to / RECORD_FOLDER}"
    said = f"Next: workbook mark {to / COURSE_FILE} {given}"
    said = f"{said} --to {to}-again"
    if (to / MARKS_FOLDER).is_dir():
        said = f"{said} --against {to / MARKS_FOLDER}"
    if not (to / KEY_FILE).is_file():
        said = f"Put {KEY_FILE} into it. {said}"
    return said
