"""Makers of small labs, good and broken; they assert nothing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from workbook.errors import AuthorError
from workbook.graph.build import build_graph
from workbook.labfile.position import read_toml_text
from workbook.labfile.reader import read_lab
from workbook.labfile.schema import LabFile
from workbook.matter.elements import load_weights

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Lab

OLIVE_OIL = Path(__file__).parents[2] / "exercises" / "olive-oil-soap"

#: A small lab that holds every kind of table and step.
CHALK = (Path(__file__).parents[1] / "data" / "chalk_in_acid.toml").read_text("utf-8")

#: A small lab that holds the kinds of step that ask for no one number.
LIME = (Path(__file__).parents[1] / "data" / "lime_and_vinegar.toml").read_text("utf-8")

#: A small lab whose readings come from the student's own bench.
KILN = (Path(__file__).parents[1] / "data" / "chalk_in_the_kiln.toml").read_text(
    "utf-8"
)

WEIGHTS = load_weights("2021 abridged")


class Mistake(NamedTuple):
    """A finding: the line that it points to, as it stands in the file, and the rest."""

    at: str
    sentence: str


def make_lab(folder: Path, text: str = CHALK) -> Lab:
    """Write a lab file into a folder of its own, and read it."""
    place = folder / "chalk-in-acid"
    place.mkdir(exist_ok=True)
    (place / "lab.toml").write_text(text, encoding="utf-8")
    return read_lab(place)


def make_graph(folder: Path, text: str = CHALK) -> Graph:
    """Write a lab file, and build its graph."""
    return build_graph(make_lab(folder, text), WEIGHTS)


def edit(text: str, *edits: tuple[str, str]) -> str:
    """Replace the first place of each old text by the new one."""
    for old, new in edits:
        before, found, after = text.partition(old)
        if not found:
            msg = f"{old!r} is not in the text."
            raise ValueError(msg)
        text = before + new + after
    return text


def read_tables(*edits: tuple[str, str]) -> LabFile:
    """Return the tables of the chalk lab with some texts replaced."""
    return LabFile.model_validate(read_toml_text(edit(CHALK, *edits), "lab.toml").data)


def find_mistakes(
    folder: Path, *edits: tuple[str, str], lab: str = CHALK
) -> list[Mistake]:
    """Return what is said of a lab with some texts replaced."""
    text = edit(lab, *edits)
    try:
        make_graph(folder, text)
    except AuthorError as error:
        return [_split(folder, text, finding) for finding in error.findings]
    return []


def _split(folder: Path, text: str, finding: str) -> Mistake:
    place = str(folder / "chalk-in-acid" / "lab.toml")
    line, _, sentence = finding.removeprefix(f"{place}:").partition(": ")
    return Mistake(text.splitlines()[int(line) - 1], sentence)
