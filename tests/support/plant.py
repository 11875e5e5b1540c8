"""Leaks made on purpose, to see that they are found."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import msgspec

from tests.support.notebook_run import ROOT, Listing

if TYPE_CHECKING:
    from pathlib import Path

#: Holds what it is given the way a careless program would, and lists itself.
_PLANT = """\
import sys
sys.path.append({root!r})
{leak}
from tests.support.heap import list_kernel
list_kernel("listing", {sheet!r})
"""

#: A checker that answers every question with one sentence.
_BLABBER = """\
import json, sys
for line in sys.stdin:
    verdict = {"outcome": "wrong", "sentence": sys.argv[1]}
    reply = {"version": 2, "number": json.loads(line)["number"]}
    reply["statement"] = {"type": "judged", "verdict": verdict}
    print(json.dumps(reply), flush=True)
"""


def list_leak(leak: str, sheet: Path, place: Path) -> Listing:
    """
    Return the listing of a process that does what it must not.

    Parameters
    ----------
    leak : str
        What it does, in Python.
    sheet : Path
        The student's sheet.
    place : Path
        An empty folder.

    Returns
    -------
    Listing
        As of a kernel.
    """
    program = _PLANT.format(root=str(ROOT), leak=leak, sheet=str(sheet))
    subprocess.run([sys.executable, "-c", program], cwd=place, check=True)
    return msgspec.json.decode((place / "listing").read_bytes(), type=Listing)


def blab_command(sentence: str) -> tuple[str, ...]:
    """Return the command of a checker that says *sentence* to everything."""
    return (sys.executable, "-c", _BLABBER, sentence)
