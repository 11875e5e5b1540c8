"""What processes take of the machine, by the files under /proc of Linux."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

_PROC = Path("/proc")


class Seen(NamedTuple):
    """What a process and all that it started hold."""

    #: How many they are [-].
    processes: int
    #: Memory of their own and their share of what is common [MB].
    memory_mb: float
    #: Open files, sockets among them [-].
    files: int


def list_family(process: int) -> list[int]:
    """Return a process and all that it started, the eldest first."""
    found = [process]
    for each in found:
        for listed in _PROC.glob(f"{each}/task/*/children"):
            found += map(int, listed.read_text(encoding="ascii").split())
    return found


def look_at(process: int) -> Seen:
    """Return what a process and all that it started hold."""
    family = list_family(process)
    memory_kb = sum(map(_memory_kb, family))
    files = sum(len(list((_PROC / str(each) / "fd").iterdir())) for each in family)
    return Seen(len(family), memory_kb / 1024, files)


def _memory_kb(process: int) -> int:
    rollup = _PROC / str(process) / "smaps_rollup"
    for line in rollup.read_text(encoding="ascii").splitlines():
        name, value, *_ = line.split()
        if name == "Pss:":
            return int(value)
    msg = f"{rollup} tells no memory."
    raise RuntimeError(msg)
