"""The folder that a student gets: two notebooks and a sheet, nothing else."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from workbook.client.place import SHEET_FILE
from workbook.issuing.notebook import build_notebooks, encode_notebook

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from workbook.labfile.half import PublicHalf
    from workbook.wire.sheet import Sheet


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


def fill_folder(folder: Path, sheet: Sheet, notebooks: Mapping[str, bytes]) -> None:
    """
    Write one student's copy of a lab.

    Parameters
    ----------
    folder : Path
        It and those above it are made where they don't exist.
    sheet : Sheet
        What the student may see.
    notebooks : mapping of str to bytes
        What `encode_notebooks` made.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    folder.mkdir(parents=True, exist_ok=True)
    (folder / SHEET_FILE).write_bytes(encode_sheet(sheet))
    for name, content in notebooks.items():
        (folder / name).write_bytes(content)


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
