"""
A program between a notebook and its solver that writes down every line.

Run as ``python -P tap.py RECORD PROGRAM ARGUMENT...``: what comes in goes on to the
program's input, what the program writes goes out, and RECORD holds both in order, a
request after ``>``, a reply after ``<``.
"""

from __future__ import annotations

import subprocess
import sys
import threading
from pathlib import Path
from typing import IO

ASKED, SAID = b">", b"<"


def main(record: str, command: list[str]) -> int:
    """Stand between until both have ended, and return the program's exit code."""
    pipe = subprocess.PIPE
    with (
        Path(record).open("ab", buffering=0) as file,
        subprocess.Popen(command, stdin=pipe, stdout=pipe) as process,
    ):
        if process.stdin is None or process.stdout is None:
            return 1
        asks = threading.Thread(
            target=_carry, args=(ASKED, sys.stdin.buffer, process.stdin, file)
        )
        asks.start()
        _carry(SAID, process.stdout, sys.stdout.buffer, file)
        asks.join()
    return process.returncode


def _carry(sign: bytes, come: IO[bytes], go: IO[bytes], record: IO[bytes]) -> None:
    """Pass lines on until there are no more; each is recorded before it goes."""
    with go:
        for line in come:
            record.write(sign + line)
            go.write(line)
            go.flush()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
