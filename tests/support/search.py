"""Looking for secrets in texts, numbers and groups, whatever form they stand in."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from tests.support.secret import FEWEST_FIGURES, squeeze

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence
    from typing import Any

    from tests.support.notebook_run import Line, Listing
    from tests.support.secret import Choice, Secrets, Value

#: A number, with its decimal point if it has one; a power of ten behind it is left.
_NUMBER = re.compile(r"(?<![\d.])\d+(?:\.\d+)?(?!\d|\.\d)")

#: What holds digits at random, and new ones each time: digests, ids, moments.
_RANDOM = re.compile(
    r"(?<![0-9a-f])[0-9a-f]{32,}(?![0-9a-f])|\d{4}-\d\d-\d\dT[\d:.]+(?:Z|[+-]\d\d:\d\d)"
)

#: Where the parts of a picture lie: what the eye gets, and no more.
_GEOMETRY = re.compile(
    r"\s(?:d|points|transform|viewBox|[xy][12]?|c[xy]|r[xy]?|width|height|font-size|"
    r'stroke-width|stroke-dasharray)=\\*"[^"\\]*'
)

#: A number that is stored in full agrees to this share [-].
_IN_FULL = 1e-6

#: A whole number has so many figures before it counts in the midst of others: ports,
#: process ids and addresses have fewer, or are no values.
_WHOLE_FIGURES = 6


class Numeral(NamedTuple):
    """A number as it was found."""

    text: str
    #: Its significant digits, without the point: ``"0.0127"`` has ``"127"``.
    digits: str

    @property
    def telling(self) -> str:
        """The digits, without zeros that only fill a whole number: 10900 tells 109."""
        return self.digits if "." in self.text else self.digits.rstrip("0")

    def tells(self, value: Value) -> bool:
        """Tell whether these are a value's first digits, rounded or cut off."""
        found = int(self.digits) / 10 ** (len(self.digits) - 1)
        sought = float(f"{abs(value.value):.15e}".partition("e")[0])
        last = 10.0 ** (1 - len(self.digits))
        is_near = -last / 2 <= sought - found < last
        return is_near or bool(abs(sought - found) <= _IN_FULL * sought)

    def tells_in_crowd(self, value: Value) -> bool:
        """
        Tell the same where numbers of every kind stand.

        A value of three figures counts as it is written alone, ``"12.7"``.
        """
        if "." not in self.text and len(self.digits) < _WHOLE_FIGURES:
            return False
        if value.is_short:
            return abs(float(self.text) - value.value) <= _IN_FULL * value.value
        return len(self.digits) >= FEWEST_FIGURES and self.tells(value)


def find_numerals(text: str) -> Iterator[Numeral]:
    """Give every number in a text."""
    for found in _NUMBER.findall(_RANDOM.sub(" ", _GEOMETRY.sub(" ", text))):
        if digits := found.replace(".", "").lstrip("0"):
            yield Numeral(found, digits)


@dataclass(frozen=True)
class Searcher:
    """
    Finds the secrets of one student, but for what was earned.

    Parameters
    ----------
    secrets : Secrets
        What is looked for.
    typed : str
        Everything that the student typed: its numbers are known to them.
    ticked : frozenset of str
        Steps at which the student ticked what is right.
    """

    secrets: Secrets
    typed: str = ""
    ticked: frozenset[str] = frozenset()
    _known: frozenset[str] = field(init=False, default=frozenset())

    def __post_init__(self) -> None:
        known = {each.digits.rstrip("0") for each in find_numerals(self.typed)}
        object.__setattr__(self, "_known", frozenset(known))

    def find_in_document(self, text: str) -> list[str]:
        """
        Return what a text gives away that was written for this student alone.

        Three figures of a value are enough here.
        """
        numerals = [each for each in find_numerals(text) if len(each.digits) > 2]
        hidden = [name for name in sorted(self.secrets.hidden) if name in text]
        return [
            *self._find_values(numerals, Numeral.tells),
            *self.find_phrases([text]),
            *hidden,
        ]

    def find_in_memory(self, texts: Iterable[str], numbers: Iterable[str]) -> list[str]:
        """Return what a process gives away, whose memory is full of other things."""
        kept = [*texts, *numbers]
        numerals = {numeral for text in kept for numeral in find_numerals(text)}
        hidden = sorted(self.secrets.hidden.intersection(kept))
        found = self._find_values(sorted(numerals), Numeral.tells_in_crowd)
        return [*found, *self.find_phrases(kept), *hidden]

    def find_in_listing(self, listing: Listing) -> list[str]:
        """Return what a kernel gives away, right options that stand apart included."""
        found = self.find_in_memory(listing.texts, listing.numbers)
        return [*found, *self.find_rights(listing.groups)]

    def find_phrases(self, texts: Iterable[str]) -> list[str]:
        """Return which texts of the lab file, which forms of the key stand there."""
        heap = "\n".join(map(squeeze, texts))
        typed = squeeze(self.typed)
        return [
            f"{where}: {phrase}"
            for where, phrase in self.secrets.phrases.items()
            if phrase in heap and phrase not in typed
        ]

    def find_rights(self, groups: Iterable[Iterable[str]]) -> list[str]:
        """Return the steps whose right options stand apart from the wrong ones."""
        sets = [frozenset(group) for group in groups]
        return [
            f"{choice.step}: {sorted(group)}"
            for choice in self.secrets.choices
            if choice.step not in self.ticked
            for group in sets
            if _tells(choice, group)
        ]

    def _find_values(
        self, numerals: Iterable[Numeral], tells: Callable[[Numeral, Value], bool]
    ) -> list[str]:
        return [
            f"{value.name}: {numeral.text}"
            for numeral in numerals
            if numeral.digits.rstrip("0") not in self._known
            for value in self.secrets.values
            if tells(numeral, value)
        ]


def find_groups(node: object) -> Iterator[tuple[str, ...]]:
    """Give the texts that stand together in each list and table of a JSON file."""
    if isinstance(node, dict):
        parts = [*node, *node.values()]
    elif isinstance(node, list):
        parts = node
    else:
        return
    yield tuple(part for part in parts if isinstance(part, str))
    for part in parts:
        yield from find_groups(part)


def shares_digits(text: str, value: float, typed: str) -> bool:
    """
    Tell whether a text holds three digits in a row of a value's first six.

    Parameters
    ----------
    text : str
        What was said.
    value : float
        What must not be said.
    typed : str
        What it was said to: what stands here may be said again.

    Returns
    -------
    bool
        True for a leak, wherever its decimal point stands.
    """
    digits = f"{abs(value):.5e}".replace(".", "")[:6]
    said = [each.telling for each in find_numerals(text)]
    known = [each.telling for each in find_numerals(typed)]
    return any(
        three in one and not any(three in other for other in known)
        for three in (digits[at : at + 3] for at in range(4))
        for one in said
    )


def pair(lines: Sequence[Line]) -> Iterator[tuple[dict[str, Any], str]]:
    """Give each question with the text of its statement."""
    for asked, said in zip(lines[::2], lines[1::2], strict=True):
        yield asked.message["question"], json.dumps(said.message["statement"])


def find_in_talk(secrets: Secrets, lines: Sequence[Line]) -> list[str]:
    """Return what replies give away before a request has earned it."""
    typed, found = "", []
    for question, said in pair(lines):
        typed += json.dumps(question.get("answer", ""))
        found += Searcher(secrets, typed).find_in_document(said)
    return found


def find_shared(secrets: Secrets, lines: Sequence[Line]) -> list[str]:
    """Return the statements with three digits in a row of their step's right value."""
    return [
        f"{question['step']}: {said}"
        for question, said in pair(lines)
        for value in secrets.values
        if value.name.partition(",")[0] == question["step"]
        if shares_digits(said, value.value, json.dumps(question["answer"]))
    ]


def _tells(choice: Choice, group: frozenset[str]) -> bool:
    """Tell whether a group holds the right options alone, or beside their step."""
    if group & choice.options != choice.right:
        return False
    return choice.step in group or group <= choice.options
