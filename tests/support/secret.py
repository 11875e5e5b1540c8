"""What no student may see before it is earned: of one lab, for one student."""

from __future__ import annotations

import base64
import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.graph.compute import compute
from workbook.graph.quantity import Origin
from workbook.labfile.instrument import Kind
from workbook.solver.source import KEY_FILE, CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.wire.sheet import SheetId

#: Keys of a lab file whose values are of its key half. Printed numbers, species and
#: texts are not among them; right options are ids, and looked for as such.
_KEY_HALF = {"is", "draw", "plausible", "pieces", "look_for"}

#: In a kernel's memory a value is known by so many figures: there stand some 45 000
#: texts, versions and sizes among them, and three figures of anything by chance.
FEWEST_FIGURES = 4


@dataclass(frozen=True)
class Value:
    """A number that is secret, in its own unit; a power of ten hides nothing."""

    name: str
    value: float

    @property
    def is_short(self) -> bool:
        """True for a value that has no more than three figures, as a reading."""
        return f"{self.value:.3g}" == f"{self.value:.9g}"


@dataclass(frozen=True)
class Choice:
    """What can be ticked at a step, and what should be."""

    step: str
    options: frozenset[str]
    right: frozenset[str]


@dataclass(frozen=True)
class Secrets:
    """Everything of one student's copy that stays behind the border."""

    values: tuple[Value, ...]
    #: Texts, by what they are; blanks left out.
    phrases: Mapping[str, str]
    #: Names of values that are drawn and never shown.
    hidden: frozenset[str]
    choices: tuple[Choice, ...]


def squeeze(text: str) -> str:
    """Return a text without its blanks."""
    return "".join(text.split())


def gather_secrets(course: Path, sheet: SheetId) -> Secrets:
    """
    Return what one student may not see.

    Parameters
    ----------
    course : Path
        The course file, its key beside it.
    sheet : SheetId
        The student's.

    Returns
    -------
    Secrets
        From the lab file as it is written, and from the values as they were drawn.
    """
    source = CourseSource(course)
    case, lab = source.case(sheet), source.labs[sheet.lab]
    rights = {**lab.key.right, "limiting": ("oil",)}
    return Secrets(
        values=tuple(_find_values(case)),
        phrases={
            **_find_phrases(lab.path),
            **_find_key(course.parent / KEY_FILE),
            "the lab file's path": squeeze(str(lab.path)),
            "the lab's folder": squeeze(str(lab.path.parent)),
        },
        hidden=frozenset(lab.key.hidden),
        choices=tuple(
            Choice(
                ask.id,
                frozenset(dict(ask.options)),
                frozenset(rights[ask.id]),
            )
            for ask in lab.public.asks
            if ask.kind == "choice"
        ),
    )


def follow(case: Case, typed: Mapping[str, float]) -> tuple[Value, ...]:
    """
    Return what would follow from a student's own wrong answers: it is secret too.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    typed : mapping of str to float
        What was typed, by step, in g, mL, mol and %.

    Returns
    -------
    tuple of Value
        Of every quantity that rests on one of them.
    """
    values = {**case.values, **typed}
    carried = {
        quantity.name: compute(case.graph, quantity.relation, values)
        for quantity in case.graph.quantities.values()
        if quantity.relation is not None and quantity.origin is Origin.DERIVED
    }
    return tuple(
        Value(f"{name}, carried on", value)
        for name, value in carried.items()
        if value != case.values[name]
    )


def _find_values(case: Case) -> Iterator[Value]:
    asked = {ask.of for ask in case.graph.lab.public.asks}
    for name, quantity in case.graph.quantities.items():
        if not _is_shown(quantity, is_asked=name in asked):
            yield Value(name, quantity.from_base(case.values[name]))


def _is_shown(quantity: Quantity, *, is_asked: bool) -> bool:
    """Tell whether the sheet prints a value: a display's digits, a constant's."""
    if quantity.instrument is not None:
        return quantity.instrument.kind is Kind.BALANCE
    if quantity.origin is Origin.CONSTANT:
        return not is_asked
    return quantity.origin is Origin.GIVEN


def _find_phrases(path: Path) -> dict[str, str]:
    read = tomllib.loads(path.read_text(encoding="utf-8"))
    return {where: squeeze(text) for where, text in _walk(read, "")}


def _walk(node: object, where: str) -> Iterator[tuple[str, str]]:
    """Give every text of the key half with its place in the file."""
    if isinstance(node, list):
        for each in node:
            yield from _walk(each, f"{where}[]")
    if not isinstance(node, dict):
        return
    for key, value in node.items():
        place = f"{where}.{key}"
        if key not in _KEY_HALF:
            yield from _walk(value, place)
        else:
            yield from _list_texts(value, place)


def _list_texts(value: object, place: str) -> Iterator[tuple[str, str]]:
    """Give the texts that stand under one key of the key half."""
    match value:
        case str():
            yield place, value
        case dict():
            yield from ((f"{place}.{name}", text) for name, text in value.items())
        case list():
            yield from ((f"{place}[{at}]", text) for at, text in enumerate(value))


def _find_key(path: Path) -> dict[str, str]:
    """Return the forms in which a course key could stand."""
    secret = bytes.fromhex(path.read_text(encoding="ascii"))
    return {
        "the key in hexadecimal": secret.hex(),
        "the key in capitals": secret.hex().upper(),
        "the key in base64": base64.b64encode(secret).decode(),
        "the key as bytes": squeeze(secret.decode("latin-1")),
        "the key as a number": str(int.from_bytes(secret, "big")),
        "the key's path": squeeze(str(path)),
    }
