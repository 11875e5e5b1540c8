"""
Every exception of the workbook.

::

    WorkbookError
    ├── TextError              what a person typed
    │   ├── UnreadError            it can't be read
    │   ├── AmbiguousError         it can be read in more than one way
    │   └── BlankError             there is nothing to read
    ├── UnitError              units
    │   ├── UnknownUnitError       no unit of that name
    │   └── DimensionError         two units that measure different things
    ├── MatterError            formulas, equations, solutions
    │   ├── FormulaError           the formula can't be read
    │   └── EquationError          the equation can't be read or does not balance
    ├── RelationError          a formula of the relation language
    ├── AuthorError            a lab file, a course file, a roster
    ├── DrawError              no fair set of values was found
    ├── HandInError            a hand-in that can't be marked
    ├── TaskError              a command that can't do what it was asked
    └── CheckerError           a fault of the service, never of an answer
        ├── CheckerDiedError       the process ended
        ├── CheckerSlowError       it did not answer in time
        ├── CheckerAwayError       it can't be reached just now
        └── CheckerRefusedError    it answered, and said no

A class is made from its fields, in order, and each field stays readable as an
attribute; the sentence is built from them. So every error survives pickling,
and a trip through JSON by way of `to_fields` and `from_fields`.
"""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING, ClassVar

from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


def nearest(name: str, known: Iterable[str]) -> str:
    """
    Return the question that offers the closest known name.

    Parameters
    ----------
    name : str
        What was written.
    known : iterable of str
        The names that would have been accepted.

    Returns
    -------
    str
        ``" Did you mean 'x'?"``, led by a space, or the empty text when nothing
        is close.

    Examples
    --------
    >>> nearest("oil_mas", ["oil_mass", "dish"])
    " Did you mean 'oil_mass'?"
    >>> nearest("zzz", ["oil_mass"])
    ''
    """
    close = get_close_matches(name, sorted(known), n=1)
    return f" Did you mean {close[0]!r}?" if close else ""


class WorkbookError(Exception):
    """
    The root of every error that the workbook raises on purpose.

    Parameters
    ----------
    *values : str or int or tuple of str or None
        The fields, in the order of the class's ``fields``.

    Raises
    ------
    TypeError
        If there are more or fewer values than fields: a mistake of the caller.
    """

    fields: ClassVar[tuple[str, ...]] = ("message",)
    template: ClassVar[str] = "{message}"

    def __init__(self, *values: object) -> None:
        if len(values) != len(self.fields):
            msg = f"{type(self).__name__} takes {self.fields}, got {values!r}."
            raise TypeError(msg)
        super().__init__(*values)
        for name, value in zip(self.fields, values, strict=True):
            setattr(self, name, value)

    @override
    def __str__(self) -> str:
        shown = dict(zip(self.fields, self.args, strict=True))
        return self.template.format_map(shown)

    def to_fields(self) -> dict[str, object]:
        """
        Return the class's name and the fields, ready for JSON.

        Returns
        -------
        dict
            ``{"error": name, "values": [field, ...]}``.

        Examples
        --------
        >>> CheckerSlowError("judge", 10.0).to_fields()
        {'error': 'CheckerSlowError', 'values': ['judge', 10.0]}
        """
        return {"error": type(self).__name__, "values": list(self.args)}


def from_fields(data: Mapping[str, object]) -> WorkbookError:
    """
    Return the error that `WorkbookError.to_fields` described.

    Parameters
    ----------
    data : mapping
        ``{"error": name, "values": [field, ...]}``.

    Returns
    -------
    WorkbookError
        An error of the named class with the same fields.

    Raises
    ------
    KeyError
        If no error of the workbook has that name.

    Examples
    --------
    >>> str(from_fields({"error": "TaskError", "values": ["No roster."]}))
    'No roster.'
    """
    values = data["values"]
    if not isinstance(values, list):
        msg = f"The values of an error are a list, not {values!r}."
        raise TypeError(msg)
    # JSON has no tuples, and a field of several values is one.
    fields = [tuple(each) if isinstance(each, list) else each for each in values]
    return _class_named(WorkbookError, str(data["error"]))(*fields)


def _class_named(root: type[WorkbookError], name: str) -> type[WorkbookError]:
    waiting = [root]
    while waiting:
        found = waiting.pop()
        if found.__name__ == name:
            return found
        waiting.extend(found.__subclasses__())
    raise KeyError(name)


class TextError(WorkbookError):
    """What a person typed can't be taken as it stands."""


class UnreadError(TextError):
    """A text can't be read: *position* counts characters from 0."""

    fields = ("text", "position", "reason")
    template = "{reason}"
    text: str
    position: int
    reason: str


class AmbiguousError(TextError):
    """A text can be read in more than one way, and only its writer knows which."""

    fields = ("text", "readings", "question")
    template = "{question}"
    text: str
    readings: tuple[str, ...]
    question: str


class BlankError(TextError):
    """There is nothing to read, so nothing was attempted."""

    fields = ("text",)
    template = "Nothing is typed here yet."
    text: str


class UnitError(WorkbookError):
    """A unit can't be used as it was."""


class UnknownUnitError(UnitError):
    """No unit has this name; *hint* is empty or offers a close one."""

    fields = ("text", "hint")
    template = "{text!r} is not a unit that is known here.{hint}"
    text: str
    hint: str


class DimensionError(UnitError):
    """Two units measure different things: units and dimensions, in words."""

    fields = ("found", "found_dimension", "wanted", "wanted_dimension")
    template = (
        "{found} measures {found_dimension}; "
        "{wanted_dimension} is wanted here, such as {wanted}."
    )
    found: str
    found_dimension: str
    wanted: str
    wanted_dimension: str


class MatterError(WorkbookError):
    """Something said of a substance or a reaction can't be so."""


class FormulaError(MatterError):
    """A chemical formula can't be read: *position* counts characters from 0."""

    fields = ("text", "position", "reason")
    template = "The formula {text!r} can't be read: {reason}"
    text: str
    position: int
    reason: str


class EquationError(MatterError):
    """A chemical equation can't be read, or does not balance."""

    fields = ("text", "reason")
    template = "The equation {text!r} can't stand: {reason}"
    text: str
    reason: str


class RelationError(WorkbookError):
    """A formula can't be read: *position* counts characters from 0."""

    fields = ("text", "position", "reason")
    template = "{reason}"
    text: str
    position: int
    reason: str


class AuthorError(WorkbookError):
    """
    A file that a person wrote is wrong: *findings* are whole sentences.

    Each finding starts with the file, and with the line where there is one.
    """

    fields = ("findings",)
    findings: tuple[str, ...]

    @override
    def __str__(self) -> str:
        return "\n".join(self.findings)


class DrawError(WorkbookError):
    """No fair set of values was found for a student."""

    fields = ("lab", "student", "tries", "reason")
    template = (
        "{lab}: no fair values for student {student!r} in {tries} tries; the last "
        "was refused because {reason} Widen or move the ranges in the lab file."
    )
    lab: str
    student: str
    tries: int
    reason: str


class HandInError(WorkbookError):
    """A hand-in can't be marked."""

    fields = ("file", "reason")
    template = "{file}: {reason}"
    file: str
    reason: str


class TaskError(WorkbookError):
    """A command can't do what it was asked, and has changed nothing."""

    fields = ("message",)
    message: str


class CheckerError(WorkbookError):
    """The checker could not judge: a fault of the service, never of an answer."""


class CheckerDiedError(CheckerError):
    """The checker's process ended before it answered."""

    fields = ("task", "code")
    template = "The checker ended with code {code} while asked to {task}."
    task: str
    code: int | None


class CheckerSlowError(CheckerError):
    """The checker did not answer in time."""

    fields = ("task", "limit_s")
    template = "The checker did not answer within {limit_s:.2g} s when asked to {task}."
    task: str
    limit_s: float


class CheckerAwayError(CheckerError):
    """The checker can't be reached just now: *reason* says why, as far as is known."""

    fields = ("task", "reason")
    template = "The checker can't be reached to {task}: {reason}."
    task: str
    reason: str


class CheckerRefusedError(CheckerError):
    """The checker answered, and refused: *code* is for programs."""

    fields = ("code", "reason")
    template = "{reason}"
    code: str
    reason: str
