"""TOML with lines: the values are Python's, the lines are where things stand."""

from __future__ import annotations

import json
import tomllib
from contextlib import suppress
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook.errors import AuthorError
from workbook.labfile.position import Place, read_toml, read_toml_text

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

TEXT = '''\
# A lab of an invented scenario.
title = "Soap"
[species.oil]
density.value = "0.911 g/mL"
'a key' = [
  1,
  [2, 3],
  { x = 4, y.z = 5 },   # a comment is no element
]
[species.lye]
note = """
two lines"""
[species]
"quoted \\u00e9" = 1
[[postlab]]
asks = "first?"
[[postlab]]
[postlab.of]
name = "oil"
[[postlab.hints]]
[[postlab.hints]]
text = "last"
'''

# Counted by hand in TEXT.
LINES: list[tuple[Place, int]] = [
    ((), 1),
    (("title",), 2),
    (("species",), 13),
    (("species", "oil"), 3),
    (("species", "oil", "density"), 4),
    (("species", "oil", "density", "value"), 4),
    (("species", "oil", "a key"), 5),
    (("species", "oil", "a key", 0), 6),
    (("species", "oil", "a key", 1), 7),
    (("species", "oil", "a key", 1, 1), 7),
    (("species", "oil", "a key", 2), 8),
    (("species", "oil", "a key", 2, "y", "z"), 8),
    (("species", "lye"), 10),
    (("species", "lye", "note"), 11),
    (("species", "quoted é"), 14),
    (("postlab",), 15),
    (("postlab", 0), 15),
    (("postlab", 0, "asks"), 16),
    (("postlab", 1), 17),
    (("postlab", 1, "of"), 18),
    (("postlab", 1, "of", "name"), 19),
    (("postlab", 1, "hints", 0), 20),
    (("postlab", 1, "hints", 1), 21),
    (("postlab", 1, "hints", 1, "text"), 22),
]


def findings(text: str) -> tuple[str, ...]:
    """Return what is said of a text that is not TOML."""
    with pytest.raises(AuthorError) as caught:
        read_toml_text(text, "lab.toml")
    return caught.value.findings


@pytest.mark.parametrize(("place", "line"), LINES)
def test_everything_has_its_line(place: Place, line: int) -> None:
    assert read_toml_text(TEXT, "lab.toml").line(place) == line


def test_the_values_are_those_of_pythons_reader() -> None:
    assert read_toml_text(TEXT, "lab.toml").data == tomllib.loads(TEXT)


@pytest.mark.parametrize(
    ("place", "line"),
    [
        (("species", "oil", "densitty"), 3),
        (("species", "oil", "a key", 7), 5),
        (("postlab", 1, "asks"), 17),
        (("nowhere", "at", "all"), 1),
    ],
)
def test_what_is_missing_has_the_line_around_it(place: Place, line: int) -> None:
    assert read_toml_text(TEXT, "lab.toml").line(place) == line


def places(data: object, above: Place = ()) -> Iterator[Place]:
    """Give every place of some data."""
    yield above
    if isinstance(data, dict):
        for key, value in data.items():
            yield from places(value, (*above, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from places(value, (*above, index))


def test_no_place_of_the_data_is_without_a_line() -> None:
    located = read_toml_text(TEXT, "lab.toml")
    assert set(places(located.data)) == set(located.lines)


# JSON writes text and keys as TOML does, except for the character DEL.
_words = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x7f"))


@given(st.dictionaries(_words, st.sampled_from(["1", '"x"', "[1,\n2]"]), max_size=6))
def test_any_keys_are_found_on_their_own_lines(pairs: dict[str, str]) -> None:
    quoted = {key: json.dumps(key, ensure_ascii=False) for key in pairs}
    text = "\n".join(f"{quoted[key]} = {value}" for key, value in pairs.items())
    located = read_toml_text(text, "lab.toml")
    rows = text.split("\n")
    for key in pairs:
        assert rows[located.line((key,)) - 1].startswith(f"{quoted[key]} =")


def test_lines_are_the_same_with_the_line_ends_of_windows() -> None:
    located = read_toml_text(TEXT.replace("\n", "\r\n"), "lab.toml")
    assert all(located.line(place) == line for place, line in LINES)


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("a = 1\nb = g\n", 2, "'b = g' can't be read as TOML at column 5"),
        ("a = 1\n\nunit\n", 3, "'unit' can't be read as TOML"),
        ("a = [1,\n", 1, "'a = [1,' can't be read as TOML"),
        ('"\\ud800" = 1', 1, "not a Unicode scalar"),
        ("a = 01", 1, "text stands in quotes"),
        ("a = 1\nb.c = 2\nb = 3", 3, "can't be read as TOML"),
    ],
)
def test_a_slip_of_syntax_has_its_line(text: str, line: int, says: str) -> None:
    (finding,) = findings(text)
    assert finding.startswith(f"lab.toml:{line}: ")
    assert says in finding


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a = 1\nb = 2\na = 3", "lab.toml:3: a stands here a second time"),
        ("[t]\nx = 1\n[t]", "lab.toml:3: t stands here a second time"),
        ("[t]\nx = 1\nx = 2", "lab.toml:3: t.x stands here a second time"),
        ("[[p]]\n[[p]]\nx = 1\nx = 2", "lab.toml:4: p.1.x stands here a second time"),
        ("a = {x = 1, x = 2}", "lab.toml:1: a.x stands here a second time"),
    ],
)
def test_a_key_that_is_written_twice_has_both_lines(text: str, said: str) -> None:
    (finding,) = findings(text)
    assert finding.startswith(said)
    assert "Keep one of the two." in finding


def test_the_first_line_of_a_repeated_key_is_told() -> None:
    assert "first written in line 2" in findings("[t]\nx = 1\nx = 2")[0]


def test_a_byte_order_mark_is_named() -> None:
    assert findings("\ufeffa = 1")[0].startswith("lab.toml:1: the file starts with")


@pytest.mark.parametrize("value", ["[" * 9000 + "]" * 9000, "9" * 5000])
def test_a_monstrous_value_is_an_error_of_the_author(value: str) -> None:
    assert findings(f"a = {value}")[0].startswith("lab.toml: a value is too deep")


@given(st.text() | st.text(alphabet="ab.=[]{}\"'\n1,#"))
def test_any_text_is_read_or_refused(text: str) -> None:
    with suppress(AuthorError):
        located = read_toml_text(text, "lab.toml")
        assert set(places(located.data)) == set(located.lines)


def test_a_file_is_called_by_its_path(tmp_path: Path) -> None:
    path = tmp_path / "lab.toml"
    path.write_text("a = 1", encoding="utf-8")
    assert read_toml(path).name == str(path)


def test_a_file_that_is_not_there_is_an_error_of_the_author(tmp_path: Path) -> None:
    path = tmp_path / "lab.toml"
    with pytest.raises(AuthorError) as caught:
        read_toml(path)
    assert caught.value.findings[0].startswith(f"{path}: there is no such file")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(AuthorError, match="can't be opened"):
        read_toml(tmp_path)


def test_bytes_that_are_no_text_have_their_line(tmp_path: Path) -> None:
    path = tmp_path / "lab.toml"
    path.write_bytes(b'a = 1\nb = "\xe9"\n')
    with pytest.raises(AuthorError) as caught:
        read_toml(path)
    assert caught.value.findings[0].startswith(f"{path}:2: the byte 0xe9")
