"""
Everything that can be said of a lab before a student sees it.

A file is looked at in three passes: what can't be read, and what else is wrong beside
it; what does not fit together; what becomes of many draws. Each pass tells all that it
finds, and the next needs it empty.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from msgspec import Struct
from pydantic import ValidationError

from workbook.authoring.salvage import find_further
from workbook.authoring.structure import WITHOUT, has_structures, structures_agree
from workbook.authoring.told import Told, locate, read_told
from workbook.draw.key import new_key
from workbook.draw.printed import find_printed
from workbook.draw.review import Review, review_draws
from workbook.draw.vanishing import find_vanishing
from workbook.draw.variant import choose_variant
from workbook.errors import AuthorError, DrawError
from workbook.graph.dimension import relations_measure
from workbook.issuing.folder import find_out_of_step, find_undrawn
from workbook.labfile.course import Conventions
from workbook.labfile.position import read_toml
from workbook.labfile.reader import LAB_FILE, validate
from workbook.labfile.rule import RULES
from workbook.labfile.schema import LabFile
from workbook.labfile.source import list_unsure
from workbook.labfile.split import split
from workbook.labfile.variant import find_in_each
from workbook.solver.bench import prepare

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from workbook.draw.key import CourseKey
    from workbook.labfile.finding import Finding
    from workbook.labfile.half import Lab
    from workbook.labfile.position import Located

#: A name in the reason for which draws are refused.
_NAMED = re.compile(r"'([A-Za-z][A-Za-z0-9_.]*)'")


class Inspection(Struct, frozen=True):
    """What was found in one lab."""

    lab: str
    #: Mistakes, in the order of lines.
    findings: tuple[Told, ...] = ()
    #: What a chemist has to confirm: figures from memory, unsaid hazards.
    confirm: tuple[Told, ...] = ()
    #: What could not be looked at here.
    notes: tuple[str, ...] = ()
    #: What becomes of draws; None where there are mistakes.
    review: Review | None = None
    #: What becomes of the draws of the other variants.
    others: tuple[Review, ...] = ()


def inspect_lab(folder: Path, draws: int) -> Inspection:
    """
    Return everything that can be said of a lab.

    Parameters
    ----------
    folder : Path
        The lab's folder.
    draws : int
        How many draws to look through [-].

    Returns
    -------
    Inspection
        With findings where something must be mended.
    """
    path = folder / LAB_FILE
    try:
        located = read_toml(path)
    except AuthorError as error:
        return Inspection(str(folder), tuple(map(read_told, error.findings)))
    try:
        file = validate(LabFile, located, str(path))
    except AuthorError as error:
        return Inspection(str(folder), _tell_all(error, located, path))
    confirm = locate(find_in_each(file, [list_unsure]), located, str(path))
    findings = locate(_find_misfits(file), located, str(path))
    notes = _list_notes(file)
    if findings:
        return Inspection(str(folder), findings, confirm, notes)
    lab = split(file, path, located)
    findings, reviews = _try_out_all(lab, draws)
    return Inspection(
        lab=str(folder),
        findings=(*findings, *_out_of_step(folder, lab)),
        confirm=confirm,
        notes=(*notes, *_undrawn(folder, lab)),
        review=reviews[0] if reviews else None,
        others=reviews[1:],
    )


def _tell_all(error: AuthorError, located: Located, path: Path) -> tuple[Told, ...]:
    """Tell mistakes of form, and what is wrong in the rest of the file."""
    told = set(map(read_told, error.findings))
    if isinstance(error.__cause__, ValidationError):
        told |= {*locate(find_further(located, error.__cause__), located, str(path))}
    return tuple(sorted(told, key=lambda each: (each.line or 0, each.says)))


def _find_misfits(file: LabFile) -> Iterator[Finding]:
    is_sound = True
    for finding in find_in_each(file, RULES):
        is_sound = False
        yield finding
    if not is_sound:
        # Of a sound file the graph tells these, with what else it finds.
        yield from relations_measure(file)
    elif has_structures():
        yield from find_in_each(file, [structures_agree])


def _list_notes(file: LabFile) -> tuple[str, ...]:
    is_drawn = any(each.smiles for each in file.species.values())
    return (WITHOUT,) if is_drawn and not has_structures() else ()


def _try_out_all(lab: Lab, draws: int) -> tuple[tuple[Told, ...], tuple[Review, ...]]:
    """Try a lab out in each of its variants, with the draws that fall to each."""
    key, findings, reviews = new_key(), dict[Told, None](), list[Review]()
    drawn = [str(number) for number in range(draws)]
    chosen = [choose_variant(key, lab.public, student) for student in drawn]
    for variant, way in lab.ways.items():
        theirs = [s for s, name in zip(drawn, chosen, strict=True) if name == variant]
        found, review = _try_out(way, key, theirs or drawn[:1])
        findings |= dict.fromkeys(found)
        if review is not None:
            reviews.append(replace(review, share=len(theirs) / draws))
    return tuple(findings), () if findings else tuple(reviews)


def _try_out(
    lab: Lab, key: CourseKey, students: Sequence[str]
) -> tuple[tuple[Told, ...], Review | None]:
    """Return what is wrong with the values of a lab, or what becomes of its draws."""
    try:
        compiled = prepare(lab, Conventions()).compiled
        found = [*find_vanishing(compiled.graph), *find_printed(compiled.graph)]
        if found:
            return locate(found, lab.located, str(lab.path)), None
        return (), review_draws(compiled, key, students)
    except AuthorError as error:
        return tuple(map(read_told, error.findings)), None
    except DrawError as error:
        return (_place_refusal(lab, error),), None


def _place_refusal(lab: Lab, error: DrawError) -> Told:
    """Point to what the last draw was refused for."""
    named = _NAMED.search(error.reason)
    name = named[1] if named else ""
    places = (
        (table, name)
        for table in ("readings", "givens", "hidden", "quantities")
        if (table, name) in lab.located.lines
    )
    place = next(places, ("readings",))
    says = (
        f"no draw is fair; the last was refused because {error.reason} Widen or move "
        "the ranges from which it follows."
    )
    return Told(str(lab.path), lab.located.line(place), says)


def _out_of_step(folder: Path, lab: Lab) -> Iterator[Told]:
    for name in find_out_of_step(folder, lab.public):
        says = (
            f"this is not the notebook that {LAB_FILE} gives; run workbook build "
            f"{folder} --replace"
        )
        yield Told(str(folder / name), None, says)
    for drawing in find_undrawn(folder, lab.public):
        if (folder / drawing.file).is_file():
            says = (
                f"this is not the drawing that {LAB_FILE} gives; run workbook build "
                f"{folder} --replace"
            )
            yield Told(str(folder / drawing.file), None, says)


def _undrawn(folder: Path, lab: Lab) -> Iterator[str]:
    missing = [
        each.file
        for each in find_undrawn(folder, lab.public)
        if not (folder / each.file).is_file()
    ]
    if missing:
        yield (
            f"Not drawn yet: {', '.join(missing)}; workbook build {folder} draws them. "
            "Until then students read their words."
        )
