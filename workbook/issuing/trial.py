"""A course of one person and one lab, to try the lab with fresh values."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from workbook.draw.key import new_key, write_key
from workbook.solver.source import KEY_FILE

if TYPE_CHECKING:
    from pathlib import Path

#: The folder beside the notebooks in which the solver finds the trial's course.
CHECKER_FOLDER = ".checker"

#: Who tries.
TRIAL_STUDENT = "trial"

_COURSE = """\
# A trial: one person, one lab, values of its own. It can be deleted at any time.

[course]
name   = "trial"
title  = "A trial"
labs   = [{lab}]
roster = "roster.csv"
"""

_ROSTER = f"student,name\n{TRIAL_STUDENT},\n"


def make_trial_course(folder: Path, lab_folder: Path) -> Path:
    """
    Write a course for one person, with a key that nobody has had before.

    Parameters
    ----------
    folder : Path
        The trial's folder, in which the notebooks lie.
    lab_folder : Path
        The folder of the lab that is tried.

    Returns
    -------
    Path
        The course file.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    place = folder / CHECKER_FOLDER
    place.mkdir()
    course = place / "course.toml"
    course.write_text(_COURSE.format(lab=_quote(lab_folder)), encoding="utf-8")
    (place / "roster.csv").write_text(_ROSTER, encoding="utf-8")
    write_key(new_key(), place / KEY_FILE)
    return course


def _quote(path: Path) -> str:
    """Return a path as a text of TOML, whose escapes are those of JSON."""
    return json.dumps(str(path.resolve()), ensure_ascii=False)
