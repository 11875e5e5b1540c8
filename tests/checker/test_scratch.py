"""The folder of a run, and what runs left behind that were killed."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from typing import TYPE_CHECKING

import pytest

from tests.support.notebook_run import ROOT
from workbook.checker.scratch import make_scratch

if TYPE_CHECKING:
    from pathlib import Path

#: Makes a folder, says where, and goes on until it is ended.
_RUN = """\
import sys, time
from workbook.checker.scratch import make_scratch
with make_scratch() as folder:
    (folder / "figures.db").write_text("1")
    print(folder, flush=True)
    time.sleep(600)
"""


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Let folders be made here."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def start(place: Path) -> subprocess.Popen[str]:
    """Start a run, and wait until it has its folder."""
    run = subprocess.Popen(
        [sys.executable, "-c", _RUN],
        env={"TMPDIR": str(place), "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        text=True,
    )
    assert run.stdout is not None
    assert run.stdout.readline().startswith(str(place))
    return run


def end(run: subprocess.Popen[str]) -> None:
    """Kill a run."""
    with run:
        run.kill()


def test_a_run_that_ends_leaves_nothing(place: Path) -> None:
    with make_scratch() as folder:
        assert folder.parent == place
        assert folder.stat().st_mode & 0o777 == 0o700
    assert list(place.iterdir()) == []


def test_what_a_killed_run_left_goes_at_the_next_start_and_no_one_else_s(
    place: Path,
) -> None:
    killed, alive = start(place), start(place)
    assert len(list(place.iterdir())) == 2
    end(killed)
    with make_scratch() as own:
        left = set(place.iterdir()) - {own}
    assert [(each / "figures.db").read_text() for each in left] == ["1"]
    end(alive)
    with make_scratch() as own:
        assert list(place.iterdir()) == [own]


def test_what_is_not_certainly_left_behind_stays(place: Path, tmp_path: Path) -> None:
    others = tmp_path / "others"
    others.mkdir()
    (others / "owner").touch()
    (place / "workbook-figures-link").symlink_to(others)
    (place / "workbook-figures-new").mkdir()
    (place / "workbook-figures-file").touch()
    pretending = place / "workbook-figures-pretending"
    pretending.mkdir()
    (pretending / "owner").symlink_to(others / "owner")
    before = set(place.iterdir())
    with make_scratch():
        pass
    assert set(place.iterdir()) == before
    assert (others / "owner").exists()
