"""The folder that a student gets: two notebooks and a sheet, nothing else."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from workbook.client.place import SHEET_FILE
from workbook.client.way import WAY_FILE, encode_way
from workbook.issuing.notebook import build_notebooks, encode_notebook
from workbook.labfile.drawing import list_drawings

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from workbook.client.way import Way
    from workbook.labfile.drawing import Drawing
    from workbook.labfile.half import Lab, PublicHalf
    from workbook.wire.sheet import Sheet


#: A file that only its owner reads.
_PRIVATE = 0o600


def encode_sheet(sheet: Sheet) -> bytes:
    """
    Return a sheet as the content of its file.

    Parameters
    ----------
    sheet : Sheet
        What the student may see.

    Returns
    -------
    bytes
        JSON in UTF-8, laid out for a person.
    """
    return msgspec.json.format(msgspec.json.encode(sheet), indent=1) + b"\n"


def encode_notebooks(public: PublicHalf) -> dict[str, bytes]:
    """
    Return the content of each notebook of a lab, by file name.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    dict of str to bytes
        The same for every student.
    """
    made = build_notebooks(public)
    return {name: encode_notebook(notebook) for name, notebook in made.items()}


def gather_files(lab: Lab) -> dict[str, bytes]:
    """
    Return what every student gets of a lab beside their sheet.

    Parameters
    ----------
    lab : Lab
        Read from its folder.

    Returns
    -------
    dict of str to bytes
        The notebooks, and those drawings that lie in the lab's folder, by file name.

    Raises
    ------
    OSError
        If a drawing is there and can't be read.
    """
    drawn = {
        each.file: path.read_bytes()
        for each in list_drawings(lab.public)
        if (path := lab.path.parent / each.file).is_file()
    }
    return encode_notebooks(lab.public) | drawn


def fill_folder(folder: Path, sheet: Sheet, files: Mapping[str, bytes]) -> None:
    """
    Write one student's copy of a lab.

    Parameters
    ----------
    folder : Path
        It and those above it are made where they don't exist.
    sheet : Sheet
        What the student may see.
    files : mapping of str to bytes
        What `gather_files` found.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    folder.mkdir(parents=True, exist_ok=True)
    (folder / SHEET_FILE).write_bytes(encode_sheet(sheet))
    for name, content in files.items():
        (folder / name).write_bytes(content)


def write_way(folder: Path, way: Way) -> None:
    """
    Write where the course's service is, and the token of whoever asks there.

    Parameters
    ----------
    folder : Path
        One student's copy of a lab.
    way : Way
        Its token is the student's alone.

    Raises
    ------
    TaskError
        If nobody could go that way.
    OSError
        If the disk refuses.
    """
    content = encode_way(way)
    path = folder / WAY_FILE
    path.touch(mode=_PRIVATE)
    path.write_bytes(content)


def find_out_of_step(folder: Path, public: PublicHalf) -> tuple[str, ...]:
    """
    Return the notebooks of a lab folder that differ from what its file gives.

    Parameters
    ----------
    folder : Path
        The lab's folder.
    public : PublicHalf
        What its file says now.

    Returns
    -------
    tuple of str
        File names, a missing notebook included.

    Raises
    ------
    OSError
        If a notebook is there and can't be read.
    """
    wanted = encode_notebooks(public)
    return tuple(
        name
        for name, content in wanted.items()
        if not (folder / name).is_file() or (folder / name).read_bytes() != content
    )


def find_undrawn(folder: Path, public: PublicHalf) -> tuple[Drawing, ...]:
    """
    Return the drawings that a lab folder lacks, or has of other structures.

    Parameters
    ----------
    folder : Path
        The lab's folder.
    public : PublicHalf
        What its file says now.

    Returns
    -------
    tuple of Drawing
        Schemes first.

    Raises
    ------
    OSError
        If a drawing is there and can't be read.
    """
    return tuple(
        each
        for each in list_drawings(public)
        if not (path := folder / each.file).is_file()
        or not each.is_of(path.read_bytes())
    )
