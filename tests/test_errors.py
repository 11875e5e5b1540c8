"""The tree of errors, and the way of an error from fields to a sentence."""

from __future__ import annotations

import re

import pytest

from workbook import errors
from workbook.errors import (
    AmbiguousError,
    AuthorError,
    BlankError,
    CheckerDiedError,
    CheckerError,
    DimensionError,
    RelationError,
    TaskError,
    TextError,
    UnreadError,
    WorkbookError,
    from_fields,
    nearest,
)


def children(root: type[WorkbookError]) -> dict[str, str]:
    """Return the parent's name of every error below *root*."""
    found: dict[str, str] = {}
    for child in root.__subclasses__():
        if child.__module__ == errors.__name__:
            found |= {child.__name__: root.__name__} | children(child)
    return found


def drawn() -> dict[str, str]:
    """Return the parent's name of every error in the tree that the docstring draws."""
    above: list[str] = []
    found: dict[str, str] = {}
    for line in (errors.__doc__ or "").splitlines():
        match = re.match(r"^ {4}((?:│   |    |├── |└── )*)(\w+Error)\b", line)
        if match is None:
            continue
        depth = len(match[1]) // 4
        above[depth:] = [match[2]]
        if depth:
            found[match[2]] = above[depth - 1]
    return found


def test_the_drawn_tree_is_the_real_one() -> None:
    assert drawn() == children(WorkbookError)


def test_fields_are_attributes() -> None:
    error = UnreadError("1,2,3", 3, "A second comma stands here.")
    assert (error.text, error.position) == ("1,2,3", 3)
    assert error.args == ("1,2,3", 3, "A second comma stands here.")


@pytest.mark.parametrize(
    ("error", "sentence"),
    [
        (BlankError(" "), "Nothing is typed here yet."),
        (RelationError("x", 0, "Because."), "Because."),
        (
            AuthorError(("a.toml:1: no.", "a.toml:2: no.")),
            "a.toml:1: no.\na.toml:2: no.",
        ),
        (
            DimensionError("mg", "mass", "mol", "amount of substance"),
            "mg measures mass; amount of substance is wanted here, such as mol.",
        ),
        (
            CheckerDiedError("judge a step", 137),
            "The checker ended with code 137 while asked to judge a step.",
        ),
    ],
)
def test_an_error_is_its_sentence(error: WorkbookError, sentence: str) -> None:
    assert str(error) == sentence


@pytest.mark.parametrize("values", [(), ("a", "b")])
def test_a_missing_or_extra_field_is_a_mistake_of_the_caller(
    values: tuple[str, ...],
) -> None:
    with pytest.raises(TypeError, match=r"TaskError takes \('message',\)"):
        TaskError(*values)


def test_an_error_can_be_caught_by_its_branch() -> None:
    assert issubclass(AmbiguousError, TextError)
    assert issubclass(CheckerDiedError, CheckerError)
    assert not issubclass(CheckerError, TextError)


def test_fields_come_back_as_the_same_error() -> None:
    error = UnreadError("12..5", 3, "A second point stands here.")
    again = from_fields(error.to_fields())
    assert type(again) is UnreadError
    assert again.args == error.args


def test_an_unknown_class_is_not_made() -> None:
    with pytest.raises(KeyError, match="SystemExit"):
        from_fields({"error": "SystemExit", "values": []})


def test_values_that_are_no_list_are_refused() -> None:
    with pytest.raises(TypeError, match="are a list"):
        from_fields({"error": "TaskError", "values": "No roster."})


def test_a_close_name_is_offered() -> None:
    assert nearest("denssity", {"density", "dish"}) == " Did you mean 'density'?"


def test_no_name_is_offered_when_none_is_close() -> None:
    assert nearest("water", {"density", "dish"}) == ""
