"""A JupyterHub of its own for a test: system users, proxy, checker, student image."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

from tests.support.command import run
from tests.support.lab import OLIVE_OIL

if TYPE_CHECKING:
    from pathlib import Path

LAB = OLIVE_OIL.name

#: Two students: each has an id on the roster, and a system user of the same name.
ADA, BRAM = "workbook-ada", "workbook-bram"

_ROSTER = f"student,name\n{ADA},Ada Moss\n{BRAM},Bram Teal\n"


def issue_course(folder: Path) -> Path:
    """
    Issue the demonstration course for two students.

    Parameters
    ----------
    folder : Path
        Where to; ``issued/students`` in it holds what each student gets.

    Returns
    -------
    Path
        The course file.
    """
    hidden = shutil.ignore_patterns("*.key")
    shutil.copytree(OLIVE_OIL, folder / "course" / LAB, ignore=hidden)
    shutil.copy2(OLIVE_OIL.parent / "course.toml", folder / "course")
    (folder / "course" / "roster.csv").write_text(_ROSTER, encoding="utf-8")
    course = folder / "course" / "course.toml"
    issued = run("issue", course, "--to", folder / "issued")
    if issued.exit_code:
        raise RuntimeError(issued.output)
    return course
