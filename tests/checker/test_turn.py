"""Writers to one file pass one after the other, also between processes."""

from __future__ import annotations

import stat
import subprocess
import sys
import threading
from typing import TYPE_CHECKING

import pytest

from workbook.checker.turn import Turn

if TYPE_CHECKING:
    from pathlib import Path

#: Takes a turn, says so, and is killed with it.
HOLDER = """\
import sys, time
from pathlib import Path
from workbook.checker.turn import Turn
with Turn(Path(sys.argv[1])).take():
    print("taken", flush=True)
    time.sleep(60)
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "record.sqlite-turn"


def test_nobody_passes_while_another_is_at_work(path: Path) -> None:
    seen: list[str] = []

    def write() -> None:
        with Turn(path).take():
            seen.append("second")

    with Turn(path).take():
        second = threading.Thread(target=write)
        second.start()
        second.join(0.2)
        seen.append("first")
    second.join()
    assert seen == ["first", "second"]


def test_the_turn_of_a_process_that_was_killed_is_over(path: Path) -> None:
    command = [sys.executable, "-c", HOLDER, str(path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == b"taken\n"
        holder.kill()
    with Turn(path).take():
        pass


def test_an_error_ends_a_turn(path: Path) -> None:
    with pytest.raises(KeyError), Turn(path).take():
        raise KeyError
    with Turn(path).take():
        pass


def test_only_its_owner_opens_the_file(path: Path) -> None:
    with Turn(path).take():
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
