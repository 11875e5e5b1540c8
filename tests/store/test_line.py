"""Adding lines to a file that only grows."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from workbook.store.line import append_line

if TYPE_CHECKING:
    from pathlib import Path


def test_lines_are_added_one_after_the_other(tmp_path: Path) -> None:
    path = tmp_path / "book"
    for line in (b"one", b"two"):
        append_line(path, line, is_forced=True)
    assert path.read_bytes() == b"one\ntwo\n"


def test_a_line_that_was_cut_short_does_not_swallow_the_next(tmp_path: Path) -> None:
    path = tmp_path / "book"
    path.write_bytes(b"one\ntw")
    append_line(path, b"three", is_forced=False)
    assert path.read_bytes() == b"one\ntw\nthree\n"


def test_a_forced_line_is_synced_and_a_draft_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[int] = []
    monkeypatch.setattr(os, "fsync", synced.append)
    append_line(tmp_path / "book", b"draft", is_forced=False)
    assert synced == []
    append_line(tmp_path / "book", b"attempt", is_forced=True)
    assert len(synced) == 1


#: Writes one line, in a process that may make no file larger than 40 bytes.
_LIMITED = """
import resource, sys
from pathlib import Path
from workbook.store.line import append_line
resource.setrlimit(resource.RLIMIT_FSIZE, (40, 40))
try:
    append_line(Path(sys.argv[1]), b"x" * 30, is_forced=True)
except OSError as error:
    print(error.strerror)
"""


@pytest.mark.service
def test_a_line_that_fits_in_part_is_refused_and_costs_no_other(tmp_path: Path) -> None:
    path = tmp_path / "book"
    append_line(path, b"a" * 19, is_forced=True)
    command = (sys.executable, "-c", _LIMITED, str(path))
    said = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert said.strip() == os.strerror(errno.EFBIG)
    append_line(path, b"later", is_forced=True)
    assert path.read_bytes().split(b"\n") == [b"a" * 19, b"x" * 20, b"later", b""]


#: Writes 200 lines as fast as it can, each of a length of its own.
_HASTY = """
import sys
from pathlib import Path
from workbook.store.line import append_line
for number in range(200):
    line = f"{sys.argv[2]} {number} ".encode() + b"." * (number * 100)
    append_line(Path(sys.argv[1]), line, is_forced=False)
"""


@pytest.mark.service
def test_writers_in_two_processes_never_come_between_each_other(tmp_path: Path) -> None:
    path = tmp_path / "book"
    writers = [
        subprocess.Popen((sys.executable, "-c", _HASTY, str(path), name))
        for name in "ab"
    ]
    assert [writer.wait(timeout=60) for writer in writers] == [0, 0]
    lines = [line for line in path.read_bytes().split(b"\n") if line]
    expected = {
        f"{w} {n} ".encode() + b"." * (n * 100) for w in "ab" for n in range(200)
    }
    assert len(lines) == 400
    assert set(lines) == expected
