"""A folder to start a course from: its file with every setting explained, a roster."""

from __future__ import annotations

from importlib.resources import files
from string import Template
from typing import TYPE_CHECKING

from workbook.errors import TaskError
from workbook.labfile.roster import explain_id
from workbook.store import make_folder

if TYPE_CHECKING:
    from pathlib import Path

#: What is written, by name.
COURSE_FILE, ROSTER_FILE = "course.toml", "roster.csv"

_ROSTER = "student,name,section\nstudent-1,First Student,\n"


def start_course(folder: Path) -> None:
    """
    Make a folder with a course file and a roster to be filled in.

    Parameters
    ----------
    folder : Path
        It is made; its name becomes the course's.

    Raises
    ------
    TaskError
        If it is there, can't be made, or its name can't be a course's.
    """
    if wrong := explain_id(folder.name):
        msg = f"The name {folder.name!r} {wrong}."
        raise TaskError(msg)
    text = (files(__package__) / COURSE_FILE).read_text(encoding="utf-8")
    with make_folder(folder) as draft:
        filled = Template(text).substitute(name=folder.name)
        (draft / COURSE_FILE).write_text(filled, encoding="utf-8")
        (draft / ROSTER_FILE).write_text(_ROSTER, encoding="utf-8")
