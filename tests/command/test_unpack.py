"""A course unpacked from its archive."""

from __future__ import annotations

import hashlib
import json
import stat
from datetime import UTC, datetime
from pathlib import Path
from zipfile import ZipFile, ZipInfo

import pytest

from tests.support.command import run
from workbook.command.archive import list_versions


def write(name: str, content: bytes = b"x", *, said: str = "", mode: int = 0) -> None:
    """Write an archive of one file, whose fingerprint may be another's."""
    told = said or hashlib.sha256(content).hexdigest()
    manifest = {"versions": list_versions(), "files": {name: told}, "zone": "UTC"}
    with ZipFile("year.zip", "w") as packed:
        info = ZipInfo(name, (2026, 10, 12, 17, 0, 0))
        info.external_attr = mode << 16
        packed.writestr(info, content)
        packed.writestr("manifest.json", json.dumps(manifest))


def test_a_file_has_the_time_that_it_had() -> None:
    write("handins/a1.handin.json")
    assert run("unpack", "year.zip", "--to", "later").exit_code == 0
    at = datetime(2026, 10, 12, 17, tzinfo=UTC).timestamp()
    assert Path("later/handins/a1.handin.json").stat().st_mtime == at


@pytest.mark.parametrize(
    "name", ["../out", "/out", "a/../../out", "C:\\out", "..\\out", "c:out"]
)
def test_a_name_that_leads_out_is_refused(name: str) -> None:
    write(name)
    result = run("unpack", "year.zip", "--to", "deep/later")
    assert result.exit_code == 2
    assert "is no file that an archive of a course holds" in result.stderr
    assert not Path("deep/later").exists()
    assert not Path("deep/out").exists()


def test_a_link_is_refused() -> None:
    write("course.toml", b"/etc/passwd", mode=stat.S_IFLNK | 0o777)
    assert run("unpack", "year.zip", "--to", "later").exit_code == 2
    assert not Path("later").exists()


def test_a_file_that_was_changed_is_told() -> None:
    write("course.toml", said="00" * 32)
    result = run("unpack", "year.zip", "--to", "later")
    assert "'course.toml' was changed after it was packed" in result.stderr


def test_another_version_than_then_is_told() -> None:
    write("course.toml")
    with ZipFile("year.zip") as packed:
        manifest = json.loads(packed.read("manifest.json"))
    manifest["versions"]["sympy"] = "0.1"
    with ZipFile("year.zip", "w") as packed:
        packed.writestr("course.toml", b"x")
        packed.writestr("manifest.json", json.dumps(manifest))
    output = run("unpack", "year.zip", "--to", "later").output
    assert "Another version of sympy than then:" in output
    assert "it was 0.1." in output


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"{}"])
def test_what_is_no_archive_is_told(content: bytes) -> None:
    Path("year.zip").write_bytes(content)
    result = run("unpack", "year.zip", "--to", "later")
    assert result.exit_code == 2
    assert "year.zip can't be unpacked" in result.stderr
