"""
What is wrong in a file, in sentences from which an author can mend it.

pydantic finds what has the wrong form. Its kinds of error become sentences of our
own here: what stands there, what was expected, and the nearest known name.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, LiteralString, TypeAlias

from pydantic_core import InitErrorDetails, PydanticCustomError, ValidationError

from workbook.errors import nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from pydantic_core import ErrorDetails

#: A place in the file by its path of keys, and what is wrong there.
Finding: TypeAlias = tuple[tuple[str | int, ...], str]

#: The kind of error whose sentence is whole, and needs nothing added.
_WHOLE = "whole"

#: The kind of error for a key that its table does not know.
_UNKNOWN_KEY = "unknown_key"

#: Kinds of error that speak of the table around a key.
_ABSENT = frozenset({"missing", "union_tag_not_found"})

#: Pydantic's kind of error for a key that a table does not know.
_STRANGER = "extra_forbidden"

#: Characters of a value that a finding shows.
_SHOWN = 60

#: Kinds of error of pydantic, and what an author reads.
_SENTENCES: Mapping[str, str] = MappingProxyType(
    {
        "bool_type": "{found} stands here; true or false is expected, unquoted.",
        "dict_type": "{found} stands here; a table is expected: {{ key = value }}.",
        "enum": "{found} stands here; {expected} is expected.",
        "greater_than_equal": "{found} stands here; at least {ge} is expected.",
        "int_type": "{found} stands here; a whole number is expected, unquoted.",
        "less_than_equal": "{found} stands here; at most {le} is expected.",
        "literal_error": "{found} stands here; {expected} is expected.",
        "missing": "needs the key {key!r}; add it.",
        "model_type": "{found} stands here; a table is expected: {{ key = value }}.",
        "string_too_short": "{found} stands here; text that is not blank is expected.",
        "string_type": "{found} stands here; text in quotes is expected.",
        "too_short": "a list of {actual_length} stands here; one of at least "
        "{min_length} is expected.",
        "tuple_type": "{found} stands here; a list is expected: [first, second].",
        "union_tag_invalid": "{tag!r} is no kind of step; known are "
        "{expected_tags}.{hint}",
        "union_tag_not_found": "needs the key {discriminator}; add it.",
    }
)


def make_finding(sentence: str) -> PydanticCustomError:
    """
    Return an error for pydantic that carries a whole sentence.

    Parameters
    ----------
    sentence : str
        What stands there, and what was expected.

    Returns
    -------
    PydanticCustomError
        For a validator to raise; the reader adds file, line and key.
    """
    return _custom(_WHOLE, sentence)


def _custom(kind: LiteralString, sentence: str) -> PydanticCustomError:
    return PydanticCustomError(kind, "{sentence}", {"sentence": sentence})


def show(value: object) -> str:
    """
    Return a value as a finding shows it.

    Parameters
    ----------
    value : object
        As TOML gave it.

    Returns
    -------
    str
        As an author wrote it, cut where it is long.

    Examples
    --------
    >>> show(True), show("0.911")
    ('true', "'0.911'")
    """
    text = str(value).lower() if isinstance(value, bool) else repr(value)
    return text if len(text) <= _SHOWN else f"{text[:_SHOWN]}..."


def say(error: ErrorDetails, where: str) -> str:
    """
    Return the sentence of one of pydantic's errors.

    Parameters
    ----------
    error : ErrorDetails
        As `pydantic.ValidationError.errors` lists it.
    where : str
        The key that it is about: ``"species.oil.density"``.

    Returns
    -------
    str
        Without file and line.
    """
    if error["type"] == _UNKNOWN_KEY:
        return error["msg"]
    if error["type"] in _ABSENT:
        return f"{where} {_sentence(error)}"
    return f"{where}: {_sentence(error)}"


def _sentence(error: ErrorDetails) -> str:
    kind, found = error["type"], error["input"]
    context = error.get("ctx", {})
    if kind in _SENTENCES:
        tags = str(context.get("expected_tags", "")).replace("'", "").split(", ")
        hint = nearest(str(context.get("tag", "")), tags)
        key = error["loc"][-1] if error["loc"] else ""
        filling = {"found": show(found), "hint": hint, "key": key}
        return _SENTENCES[kind].format_map(filling | context)
    sentence = error["msg"].removeprefix("Value error, ")
    if kind == _WHOLE or isinstance(found, dict | list):
        return sentence
    return f"{sentence.rstrip('.')}. Found {found!r}."


def tell_known_keys(error: ValidationError, known: set[str]) -> ValidationError:
    """
    Return a table's error with the known keys told beside each unknown one.

    Parameters
    ----------
    error : ValidationError
        What pydantic found in the table.
    known : set of str
        The table's keys.

    Returns
    -------
    ValidationError
        A key that is only misspelt is not told again as missing.
    """
    details = error.errors()
    hints: dict[tuple[int | str, ...], str] = {
        each["loc"]: nearest(str(each["loc"][0]), known)
        for each in details
        if each["type"] == _STRANGER and len(each["loc"]) == 1
    }
    retold = list(_retell(details, hints, ", ".join(sorted(known))))
    return ValidationError.from_exception_data(error.title, retold)


def _retell(
    details: list[ErrorDetails], hints: Mapping[tuple[int | str, ...], str], known: str
) -> Iterator[InitErrorDetails]:
    for each in details:
        place = each["loc"]
        kind: str | PydanticCustomError = each["type"]
        if place in hints and kind == _STRANGER:
            sentence = f"{place[0]!r} is not a key of this table; known are {known}."
            kind = _custom(_UNKNOWN_KEY, sentence + hints[place])
        elif kind in {_UNKNOWN_KEY, _WHOLE}:
            kind = _custom(str(kind), each["msg"])
        elif kind == "missing" and any(repr(place[-1]) in h for h in hints.values()):
            continue
        context = each.get("ctx", {})
        yield InitErrorDetails(type=kind, loc=place, input=each["input"], ctx=context)
