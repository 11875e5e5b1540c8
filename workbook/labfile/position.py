"""
TOML text to data, with the line on which each part of it stands.

The values are those of Python's own reader. Lines come from a syntax tree of the
same text, because Python's reader keeps none.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

import tree_sitter_toml
from tree_sitter import Language, Parser

from workbook.errors import AuthorError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from tree_sitter import Node

#: Keys and indexes from the top of the file: ``("postlab", 0, "asks")``.
Place: TypeAlias = tuple[str | int, ...]

_GRAMMAR = Language(tree_sitter_toml.language())
_BYTE_ORDER_MARK = "\ufeff"

# Until Python 3.14 the place of an error stands in its text only.
_PLACE_OF_ERROR = re.compile(
    r"^(?P<what>.*) \(at (?:end of document|line (?P<line>\d+), column (?P<column>\d+))"
    r"\)$",
    re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Located:
    """The data of a file, with the line of each of its parts."""

    #: How the file is called in a finding.
    name: str
    data: dict[str, Any]
    #: Lines are counted from 1.
    lines: Mapping[Place, int]

    def line(self, place: Place) -> int:
        r"""
        Return the line on which something stands.

        Parameters
        ----------
        place : tuple of str or int
            Keys and indexes from the top of the file.

        Returns
        -------
        int
            Counted from 1; for what is not in the file, the line of the nearest
            thing around it.

        Examples
        --------
        >>> located = read_toml_text("a = 1\n[[b]]\nc = 2", "lab.toml")
        >>> located.line(("b", 0, "c")), located.line(("b", 0, "d"))
        (3, 2)
        """
        while place not in self.lines:
            place = place[:-1]
        return self.lines[place]


def read_toml(path: Path) -> Located:
    """
    Return what a TOML file says, and where.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    Located
        Called by its path.

    Raises
    ------
    AuthorError
        If there is no such file, it is not UTF-8, or it is not TOML.
    """
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        finding = f"{path}: there is no such file. Check the folder and the name."
        raise AuthorError((finding,)) from None
    except OSError as error:
        finding = f"{path}: the file can't be opened: {error.strerror}."
        raise AuthorError((finding,)) from error
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        finding = (
            f"{path}:{line}: the byte 0x{content[error.start]:02x} is not UTF-8 text. "
            "Save the file with the encoding UTF-8."
        )
        raise AuthorError((finding,)) from error
    return read_toml_text(text, str(path))


def read_toml_text(text: str, name: str) -> Located:
    """
    Return what a TOML text says, and where.

    Parameters
    ----------
    text : str
        The text of a file.
    name : str
        How the file is called in a finding.

    Returns
    -------
    Located
        The data and its lines.

    Raises
    ------
    AuthorError
        If the text is not TOML; a key that is written twice is told with both its
        lines.
    """
    if text.startswith(_BYTE_ORDER_MARK):
        finding = (
            f"{name}:1: the file starts with a byte order mark, which TOML has not. "
            "Save it as UTF-8 without one."
        )
        raise AuthorError((finding,))
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise AuthorError(_find_faults(text, name, str(error))) from error
    except (RecursionError, ValueError) as error:
        finding = (
            f"{name}: a value is too deep or has too many digits to be read. "
            "Write the value as text in quotes, or flatten it."
        )
        raise AuthorError((finding,)) from error
    return Located(name, data, _survey(text).lines)


def _find_faults(text: str, name: str, message: str) -> tuple[str, ...]:
    repeats = _find_repeats(text, name)
    if repeats:
        return repeats
    match = _PLACE_OF_ERROR.match(message)
    lines = text.splitlines() or [""]
    line = int(match["line"]) if match and match["line"] else len(lines)
    column = f" at column {match['column']}" if match and match["column"] else ""
    found = lines[line - 1].strip()[:60] if line <= len(lines) else ""
    what = match["what"] if match else message
    finding = (
        f"{name}:{line}: {found!r} can't be read as TOML{column}: {what}. "
        'A line is a [table] or a key = value, and text stands in quotes: unit = "g".'
    )
    return (finding,)


def _find_repeats(text: str, name: str) -> tuple[str, ...]:
    try:
        repeats = _survey(text).repeats
    except tomllib.TOMLDecodeError:
        # A key in quotes is at fault itself.
        return ()
    return tuple(
        f"{name}:{line}: {_shown(place)} stands here a second time; it was first "
        f"written in line {first}. Keep one of the two."
        for place, first, line in repeats
    )


def _shown(place: Place) -> str:
    return ".".join(str(part) for part in place)


def _survey(text: str) -> _Survey:
    tree = Parser(_GRAMMAR).parse(text.encode("utf-8", "replace"))
    survey = _Survey()
    # After a slip of syntax the tree is a guess, and what it repeats may be one too.
    if not tree.root_node.has_error:
        survey.document(tree.root_node)
    return survey


class _Survey:
    """Goes through a syntax tree, and notes the line of every place."""

    def __init__(self) -> None:
        self.lines: dict[Place, int] = {(): 1}
        #: Place, first line and second line of what is written twice.
        self.repeats: list[tuple[Place, int, int]] = []
        self._written: set[Place] = set()
        self._lengths: dict[Place, int] = {}

    def document(self, root: Node) -> None:
        for node in root.named_children:
            if node.type == "pair":
                self._pair(node, ())
            elif node.type in {"table", "table_array_element"}:
                self._table(node)

    def _table(self, node: Node) -> None:
        key, *content = _parts(node)
        *parents, own = _keys(key)
        place: Place = (*self._enter((), parents, _line(key)), own)
        if node.type == "table_array_element":
            place = self._lengthen(place, _line(key))
        self._write(place, _line(key))
        for pair in content:
            self._pair(pair, place)

    def _enter(self, place: Place, keys: list[str], line: int) -> Place:
        """Return the place below *place*; of an array of tables, its last element."""
        for key in keys:
            place = (*place, key)
            self.lines.setdefault(place, line)
            if place in self._lengths:
                place = (*place, self._lengths[place] - 1)
        return place

    def _lengthen(self, array: Place, line: int) -> Place:
        self.lines.setdefault(array, line)
        index = self._lengths.get(array, 0)
        self._lengths[array] = index + 1
        return (*array, index)

    def _pair(self, node: Node, table: Place) -> None:
        key, value = _parts(node)
        *parents, own = _keys(key)
        place: Place = (*self._enter(table, parents, _line(key)), own)
        self._write(place, _line(key))
        self._value(value, place)

    def _value(self, node: Node, place: Place) -> None:
        if node.type == "inline_table":
            for pair in _parts(node):
                self._pair(pair, place)
        elif node.type == "array":
            for index, element in enumerate(_parts(node)):
                self._write((*place, index), _line(element))
                self._value(element, (*place, index))

    def _write(self, place: Place, line: int) -> None:
        if place in self._written:
            self.repeats.append((place, self.lines[place], line))
            return
        self._written.add(place)
        self.lines[place] = line


def _parts(node: Node) -> list[Node]:
    return [child for child in node.named_children if child.type != "comment"]


def _line(node: Node) -> int:
    return node.start_point[0] + 1


def _keys(node: Node) -> list[str]:
    return list(_read_keys(node))


def _read_keys(node: Node) -> Iterator[str]:
    text = (node.text or b"").decode()
    if node.type == "dotted_key":
        for part in node.named_children:
            yield from _read_keys(part)
    elif node.type == "quoted_key":
        # A quoted key is written as a text is, so Python's reader takes its escapes.
        yield tomllib.loads(f"key = {text}")["key"]
    else:
        yield text
