"""Every error can be built, read, pickled and sent; no words are glued together."""

from __future__ import annotations

import io
import json
import pickle
import re
import tokenize
from itertools import pairwise
from pathlib import Path

import pytest

import workbook
from workbook import errors
from workbook.errors import WorkbookError, from_fields

ROOT = Path(workbook.__file__).parent

#: A field of each name, as the workbook fills it.
SAMPLES: dict[str, object] = {
    "code": 137,
    "file": "ada.json",
    "findings": ("lab.toml:1: no title.", "lab.toml:2: no unit."),
    "found": "mg",
    "found_dimension": "mass",
    "hint": " Did you mean 'mL'?",
    "lab": "olive-oil-soap",
    "limit_s": 10.0,
    "message": "There is no roster.",
    "position": 3,
    "question": "Is '0.789' a fraction or a percentage?",
    "reading": "13.6 g",
    "readings": ("0.789 %", "78.9 %"),
    "reason": "A second comma stands at character 4.",
    "student": "ada",
    "task": "judge a step",
    "text": "1,2,3",
    "tries": 500,
    "wanted": "mol",
    "wanted_dimension": "amount of substance",
}


def all_errors(root: type[WorkbookError]) -> list[type[WorkbookError]]:
    """Return *root* and every error of the module below it."""
    below = [
        found
        for child in root.__subclasses__()
        if child.__module__ == errors.__name__
        for found in all_errors(child)
    ]
    return [root, *below]


def build(error: type[WorkbookError]) -> WorkbookError:
    """Return an error with a likely value in each field."""
    return error(*(SAMPLES[name] for name in error.fields))


every_error = pytest.mark.parametrize("error", all_errors(WorkbookError))


@every_error
def test_an_error_reads_as_whole_sentences(error: type[WorkbookError]) -> None:
    shown = str(build(error))
    assert re.search(r"[.?]$", shown)
    assert not re.search(r"  |[{}]|\bNone\b", shown)


@every_error
def test_a_template_uses_fields_only(error: type[WorkbookError]) -> None:
    used = set(re.findall(r"\{(\w+)", error.template))
    assert used <= set(error.fields) or error.template == WorkbookError.template


@every_error
def test_a_field_that_is_shown_is_an_attribute(error: type[WorkbookError]) -> None:
    built = build(error)
    for name in error.fields:
        assert getattr(built, name) == SAMPLES[name]


@every_error
def test_an_error_survives_pickling(error: type[WorkbookError]) -> None:
    built = build(error)
    again = pickle.loads(pickle.dumps(built))  # noqa: S301 - pickled on this line
    assert type(again) is error
    assert again.args == built.args
    assert str(again) == str(built)


@every_error
def test_an_error_survives_json(error: type[WorkbookError]) -> None:
    built = build(error)
    again = from_fields(json.loads(json.dumps(built.to_fields())))
    assert type(again) is error
    assert again.args == built.args
    assert str(again) == str(built)


#: A piece of text in a source, from its quote to its quote.
_PIECE = re.compile(
    r"""^(?P<prefix>[A-Za-z]*)(?P<quote>\"{3}|'{3}|"|')(?P<text>.*)""", re.DOTALL
)
_ENDS_A_WORD = re.compile(r"[\w.,;:!?%)\]}'\"]$")
_STARTS_A_WORD = re.compile(r"^[^\W\d_]")


def pieces(source: str) -> list[tuple[int, int, int, str]]:
    """
    Return the texts of a source: index of first and last token, line, and text.

    From Python 3.12 on an f-string is several tokens, which are put together here.
    """
    found: list[tuple[int, int, int, str]] = []
    tokens = [
        token
        for token in tokenize.generate_tokens(io.StringIO(source).readline)
        if token.type not in {tokenize.NL, tokenize.COMMENT}
    ]
    opened: list[int] = []
    for index, token in enumerate(tokens):
        name = tokenize.tok_name[token.type]
        if name == "FSTRING_START":
            opened.append(index)
        elif name == "FSTRING_END":
            start = opened.pop()
            text = "".join(each.string for each in tokens[start : index + 1])
            if not opened:
                found.append((start, index, token.start[0], text))
        elif name == "STRING" and not opened:
            found.append((index, index, token.start[0], token.string))
    return sorted(found)


def content(piece: str) -> tuple[str, str]:
    """Return the prefix of a text and what stands between its quotes."""
    match = _PIECE.match(piece)
    assert match is not None
    return match["prefix"].lower(), match["text"].removesuffix(match["quote"])


def glued(source: str) -> list[int]:
    """
    Return the lines on which a piece of text starts right at the end of another.

    Raw and byte texts are patterns and data, not words. A value may follow the end
    of a sentence, because a hint that may be empty brings its own blank.
    """
    return [
        line
        for (_, last, _, before), (first, _, line, after) in pairwise(pieces(source))
        if first == last + 1 and runs_on(content(before), content(after))
    ]


def runs_on(before: tuple[str, str], after: tuple[str, str]) -> bool:
    """Return whether two pieces, each with its prefix, make one word of two."""
    prefixes = before[0] + after[0]
    if "r" in prefixes or "b" in prefixes or re.search(r"\\[nt]$", before[1]):
        return False
    if "f" in after[0] and re.match(r"\{[^{]", after[1]):
        return bool(re.search(r"\w$", before[1]))
    return bool(_ENDS_A_WORD.search(before[1]) and _STARTS_A_WORD.match(after[1]))


@pytest.mark.parametrize(
    "path", sorted(ROOT.rglob("*.py")), ids=lambda path: str(path.relative_to(ROOT))
)
def test_no_words_are_glued_across_pieces(path: Path) -> None:
    assert glued(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("source", "lines"),
    [
        ('x = ("One sentence."\n     "Another.")', [2]),
        ('x = ("a word" "another")', [1]),
        ('x = (f"a {value}"\n     "word")', [2]),
        ('x = ("a word"\n     f"{value}")', [2]),
        ('x = (f"No {x!r}."\n     f"{nearest(x)}")', []),
        ('x = ("a word,"  # why\n     "another")', [2]),
        ('x = ("One sentence. "\n     "Another.")', []),
        ('x = ("One sentence."\n     " Another.")', []),
        ('x = ("a line\\n"\n     "another")', []),
        ('x = "a word", "another"', []),
        ('x = (r"a+"\n     r"b")', []),
        ('x = "a word"\ny = "another"', []),
        ("x = 'a' 'b'", [1]),
    ],
)
def test_glued_words_are_found(source: str, lines: list[int]) -> None:
    assert glued(source) == lines
