"""
A lab folder to a `Lab`: read the text, check it whole, split it in two.

Everything that is wrong is told at once, each finding with file and line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from pydantic import BaseModel, ValidationError

from workbook.errors import AuthorError
from workbook.labfile.finding import say
from workbook.labfile.position import read_toml
from workbook.labfile.rule import RULES
from workbook.labfile.schema import LabFile
from workbook.labfile.split import split
from workbook.labfile.variant import find_in_each

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from pydantic_core import ErrorDetails

    from workbook.labfile.half import Lab
    from workbook.labfile.position import Located

Model = TypeVar("Model", bound=BaseModel)

#: pydantic's kind of error for a step whose kind is none.
_WRONG_KIND = "union_tag_invalid"

#: The file that describes a lab whole.
LAB_FILE = "lab.toml"


def read_lab(folder: Path) -> Lab:
    """
    Return the lab that a folder describes.

    Parameters
    ----------
    folder : Path
        The lab's folder, or its ``lab.toml``.

    Returns
    -------
    Lab
        Checked, equations balanced, in its two halves.

    Raises
    ------
    AuthorError
        With every finding, in the order of lines, if anything is wrong.
    """
    path = folder if folder.suffix == ".toml" else folder / LAB_FILE
    located = read_toml(path)
    file = validate(LabFile, located, str(path))
    found = sorted(
        (located.line(place), sentence) for place, sentence in find_in_each(file, RULES)
    )
    if found:
        raise AuthorError(tuple(f"{path}:{line}: {text}" for line, text in found))
    return split(file, path, located)


def validate(model: type[Model], located: Located, name: str) -> Model:
    """
    Return a file's data as a model, or every finding about it.

    Parameters
    ----------
    model : type
        The pydantic model of the whole file.
    located : Located
        The data, with the line of each key.
    name : str
        How the file is called in a finding.

    Returns
    -------
    Model
        The data, validated.

    Raises
    ------
    AuthorError
        With one finding for each thing that is wrong, in the order of lines.
    """
    try:
        return model.model_validate(located.data)
    except ValidationError as error:
        found = sorted({_finding(each, located) for each in error.errors()})
        findings = tuple(f"{name}:{line}: {sentence}" for line, sentence in found)
        raise AuthorError(findings) from error


def _finding(error: ErrorDetails, located: Located) -> tuple[int, str]:
    place = _place(error["loc"], located)
    where = ".".join(str(part) for part in place) or "the file"
    sentence = say(error, where)
    return located.line((*place, *_key_meant(error))), sentence


def _key_meant(error: ErrorDetails) -> tuple[str, ...]:
    """Return the key of a table at which the table's own error points, if any."""
    if error["type"] == _WRONG_KIND:
        return ("kind",)
    table, sentence = error["input"], error["msg"].removeprefix("Value error, ")
    # Sentences on a whole table start with the key that they are about.
    first = sentence.partition(" ")[0]
    return (first,) if isinstance(table, dict) and first in table else ()


def _place(loc: tuple[str | int, ...], located: Located) -> tuple[str | int, ...]:
    """Leave out of pydantic's path what is no key of the file: tags of unions."""
    place: tuple[str | int, ...] = ()
    node: object = located.data
    for part in loc:
        children = _children(node)
        if part in children:
            node = children[part]
            place = (*place, part)
    return place


def _children(node: object) -> Mapping[str | int, object]:
    if isinstance(node, list):
        return dict(enumerate(node))
    return node if isinstance(node, dict) else {}
