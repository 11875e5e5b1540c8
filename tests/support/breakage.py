"""
One mistake at a time, made in any good lab file as an author makes it.

Each mistake is a pattern, what takes its place, and a part of what must be said. The
first place that fits counts; where a lab has none, it can't make that mistake.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Breakage:
    """A mistake: what stands in a good file, what takes its place, what is said."""

    what: str
    old: str
    new: str
    #: A part of the sentence; it holds the mend.
    says: str
    #: Where the finding points to: the first line of the place, its last, or the next.
    at: Literal["first", "last", "next"] = "first"


@dataclass(frozen=True)
class Broken:
    """A lab file with one mistake, and the line on which it stands."""

    text: str
    line: int


def make_mistake(text: str, breakage: Breakage) -> Broken | None:
    """Return the file with the mistake, or None where it has no place for it."""
    found = re.search(breakage.old, text, re.MULTILINE)
    if found is None:
        return None
    broken = text[: found.start()] + found.expand(breakage.new) + text[found.end() :]
    end = found.start() if breakage.at == "first" else found.end()
    return Broken(broken, text.count("\n", 0, end) + 1 + (breakage.at == "next"))


BREAKAGES = (
    Breakage(
        "a unit is missing",
        r'^(density\s*=\s*\{ value = "[0-9.]+) [^"]+"',
        r'\1"',
        "is not a number with a unit; write it like",
    ),
    Breakage(
        "a unit is misspelt",
        r'^([^#\n]*\bunit\s*=) "mol"',
        r'\1 "moll"',
        "is not a unit that is known here. Did you mean 'mol'?",
    ),
    Breakage(
        "a range is upside down",
        r'^draw(\s*)= "([0-9.]+) \.\. ([0-9.]+)',
        r'draw\1= "\3 .. \2',
        "runs downwards; write the smaller number first.",
    ),
    Breakage(
        "a range has two units",
        r'^draw(\s*)= "([0-9.]+) \.\. ([0-9.]+) (\S+)"',
        r'draw\1= "\2 \4 .. \3 \4"',
        "is not a range; write it like",
    ),
    Breakage(
        "an equation is out of balance",
        r'^equation(\s*)= "(?:[0-9]+ )?([a-z])',
        r'equation\1= "17 \2',
        "too many",
    ),
    Breakage(
        "an equation has no arrow",
        r"^(equation\s*=.*) (?:->|<->|→) ",
        r"\1 + ",
        "0 arrows stand in it; write exactly one of",
    ),
    Breakage(
        "a species of an equation is misspelt",
        r'^(equation\s*= .*)"',
        r'\1x"',
        "is no species of this file. Did you mean",
    ),
    Breakage(
        "a constant in a relation is misspelt",
        r'^([^#\n]*\bis\s*= "[^"\n]*)\.molar_mass',
        r"\1.molr_mass",
        "which is not defined. Did you mean",
    ),
    Breakage(
        "a relation has the wrong dimension",
        r'(is = "[a-z_]+) / ([A-Za-z_0-9]+\.molar_mass")',
        r"\1 * \2",
        "Change the one or the other.",
    ),
    Breakage(
        "a relation lacks a sign",
        r'(is = "[a-z_]+) / ([A-Za-z_0-9]+\.molar_mass")',
        r"\1 \2",
        "a sign is missing. For a product, write *.",
    ),
    Breakage(
        "a bracket is not closed",
        r'is = "([a-z_]+) / ([A-Za-z_0-9]+\.molar_mass")',
        r'is = "(\1 / \2',
        "bracket",
    ),
    Breakage(
        "a key stands twice",
        r"^(revision\s*= [0-9]+)$",
        r"\1\n\1",
        "Keep one of the two.",
        at="next",
    ),
    Breakage(
        "a quote is missing",
        r'^(title\s*= ".*)"$',
        r"\1",
        "A line is a [table] or a key = value, and text stands in quotes",
    ),
    Breakage(
        "a bracket of a table is missing",
        r"^\[reaction\]$",
        r"[reaction",
        "A line is a [table] or a key = value",
    ),
    Breakage(
        "a colon stands for an equals sign",
        r"^revision\s*=",
        r"revision:",
        "A line is a [table] or a key = value",
    ),
    Breakage(
        "a hazard code is none",
        r'^hazards(\s*)= \["H[0-9]+',
        r'hazards\1= ["H99',
        "is no hazard statement that is known here.",
    ),
    Breakage(
        "hazards have no source",
        r"^(hazards\s*=.*\n)hazards_source.*\n",
        r"\1",
        "hazards need a hazards_source",
    ),
    Breakage(
        "a hazard statement is not word for word",
        r'"H314 Causes severe skin burns and eye damage"',
        r'"H314 Burns the skin"',
        "word for word",
    ),
    Breakage(
        "an instrument is none",
        r'^instrument(\s*)= "',
        r'instrument\1= "big ',
        "is no instrument that is known here; known are",
    ),
    Breakage(
        "a density has no source",
        r'^(density\s*= \{ value = [^}]*), source = "[^"]*"',
        r"\1",
        "needs the key 'source'; add it.",
    ),
    Breakage(
        "a key is misspelt",
        r"^about(\s*)=",
        r"abuot\1=",
        "is not a key of this table; known are",
    ),
    Breakage(
        "a table is misspelt",
        r"^\[lab\]$",
        r"[labb]",
        "is not a key of this table; known are",
    ),
    Breakage(
        "a kind of step is misspelt",
        r'^kind(\s*)= "reading"',
        r'kind\1= "redaing"',
        "is no kind of step; known are",
    ),
    Breakage(
        "a step asks for what is none",
        r'^(\[\[postlab\]\]\nkind\s*= "reading"\nof\s*= "[A-Za-z_0-9]+)"',
        r'\1x"',
        "is no reading of this file. Did you mean",
        at="last",
    ),
    Breakage(
        "a formula can't be read",
        r'^formula(\s*)= "[^"]+"',
        r'formula\1= "C6(H5"',
        "can't be read",
    ),
    Breakage(
        "an element has no standard weight",
        r'^formula(\s*)= "[^"]+"',
        r'formula\1= "TcO2"',
        "has no standard atomic weight",
    ),
    Breakage(
        "what is right is not offered",
        r'^right(\s*)= \["([A-Za-z_0-9]+)"',
        r'right\1= ["\2x"',
        "which is not among the options. Did you mean",
    ),
    Breakage(
        "a whole number stands in quotes",
        r"^revision(\s*)= ([0-9]+)",
        r'revision\1= "\2"',
        "a whole number is expected, unquoted.",
    ),
    Breakage(
        "a question is blank",
        r'^asks(\s*)= ".+"$',
        r'asks\1= ""',
        "text that is not blank is expected.",
    ),
    Breakage(
        "a name is none",
        r"^\[hidden\.([a-z_]+)\]",
        r'[hidden."\1 1"]',
        "is no name: a letter, then letters, digits and underscores",
    ),
    Breakage(
        "a species of an amount is misspelt",
        r'^(\[readings\.[A-Za-z_0-9]+\]\n(?:(?!\[|of).*\n)*of\s*= "[a-z_0-9A-Z]+)',
        r"\1x",
        "is no species of this file.",
        at="last",
    ),
    Breakage(
        "a reading comes from nowhere",
        r"^(\[readings\.[A-Za-z_0-9]+\]\n(?:(?!\[|draw).*\n)*)draw.*\n",
        r"\1",
        'a reading has either draw = "low .. high unit" or is = "relation".',
    ),
    Breakage(
        "a SMILES is that of another substance",
        r'^smiles(\s*)= "[^"]+"',
        r'smiles\1= "CCCCCCC"',
        "Change the one or the other.",
    ),
    Breakage(
        "a source names none",
        r'^(hazards_source\s*)= "[^"]+"',
        r'\1= "?"',
        "names no source; write where the figure was read",
    ),
)
