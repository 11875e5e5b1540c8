"""
An eye that reads pictures and sentences of instruments.

It knows nothing of how they are made: it finds lines, numbers and a surface, and
measures between them.
"""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from xml.etree import ElementTree as ET

from workbook.labfile.instrument import Instrument, Kind, find_instrument
from workbook.labfile.instrument import known_instruments as known

#: Every instrument with a scale, and with a display.
SCALES = [name for name in known() if find_instrument(name).pattern is not None]
DISPLAYS = [name for name in known() if find_instrument(name).has_display]

_SVG = "{http://www.w3.org/2000/svg}"
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")

#: Which bars each digit lights: upper, the two on the right, lower, the two on the
#: left, middle. Common practice, no source.
_BARS = {
    "1111110": "0",
    "0110000": "1",
    "1101101": "2",
    "1111001": "3",
    "0110011": "4",
    "1011011": "5",
    "1011111": "6",
    "1110000": "7",
    "1111111": "8",
    "1111011": "9",
}

_COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_PLACES = {
    "first": 1,
    "second": 2,
    "third": 3,
    "fourth": 4,
    "fifth": 5,
    "sixth": 6,
    "seventh": 7,
    "eighth": 8,
    "ninth": 9,
}


@dataclass(frozen=True)
class Seen:
    """What stands in one view of a scale: heights, downwards."""

    lines: list[float]
    #: Height of each line that has a number, by that number.
    numbers: dict[Decimal, float]
    surface: float


def some_values(name: str, count: int = 1000) -> list[Decimal]:
    """Return values that an instrument can show, its ends among them."""
    instrument = find_instrument(name)
    low, high = (
        int(end / instrument.step) for end in (instrument.lowest, instrument.capacity)
    )
    chance = random.Random(name)  # noqa: S311  no secret
    steps = [low, high, *(chance.randint(low, high) for _ in range(count - 2))]
    return [step * instrument.step for step in steps]


def parse(svg: str) -> ET.Element:
    """Return a picture that we made as a tree."""
    return ET.fromstring(svg)  # noqa: S314  our own


def find_class(root: ET.Element, name: str) -> list[ET.Element]:
    """Return all elements of a class."""
    return [each for each in root.iter() if each.get("class") == name]


def numbers_in(data: str) -> list[float]:
    """Return the numbers of a path."""
    return [float(each) for each in _NUMBER.findall(data)]


def look(instrument: Instrument, picture: ET.Element, view: str) -> Seen:
    """Look at one view of a picture: ``"wb-whole"`` or ``"wb-close"``."""
    (root,) = find_class(picture, view)
    long = _heights(root, "wb-long")
    short = [y for c in ("wb-short", "wb-middle") for y in _heights(root, c)]
    labels: dict[Decimal, float] = {}
    for numbers in find_class(root, "wb-numbers"):
        size = float(numbers.get("font-size", "nan"))
        for text in numbers.iter(f"{_SVG}text"):
            middle = float(text.get("y", "nan")) - 0.36 * size
            near = long[_nearest(long, middle)]
            assert abs(near - middle) < 0.1
            labels[Decimal((text.text or "").replace("−", "-"))] = near
    return Seen(sorted([*long, *short]), labels, _surface(instrument, root))


def _nearest(heights: list[float], wanted: float) -> int:
    return min(range(len(heights)), key=lambda at: abs(heights[at] - wanted))


def _heights(root: ET.Element, name: str) -> list[float]:
    data = "".join(each.get("d", "") for each in find_class(root, name))
    return numbers_in(data)[1::3]


def _surface(instrument: Instrument, root: ET.Element) -> float:
    """Follow the curve, and find its lowest point, or the top of a column."""
    (path,) = find_class(root, "wb-surface")
    y0, y1, y2, y3 = numbers_in(path.get("d", ""))[1::2]
    steps = [count / 200 for count in range(201)]
    curve = [
        (1 - t) ** 3 * y0
        + 3 * (1 - t) ** 2 * t * y1
        + 3 * (1 - t) * t**2 * y2
        + t**3 * y3
        for t in steps
    ]
    return min(curve) if instrument.kind is Kind.THERMOMETER else max(curve)


def read_scale(seen: Seen) -> float:
    """Read a value between the numbers of a scale."""
    (low, one), *_, (high, other) = sorted(seen.numbers.items())
    worth = float(high - low) / (other - one)
    return float(low) + (seen.surface - one) * worth


def read_close(seen: Seen, *, reads_down: bool) -> float:
    """Read how far past the line before it a surface stands, in divisions."""
    pitch = min(b - a for a, b in pairwise(seen.lines))
    past = (seen.surface - seen.lines[0]) / pitch
    return past % 1 if reads_down else -past % 1


def read_digits(svg: str) -> str:
    """Read a display."""
    (group,) = find_class(parse(svg), "wb-digits")
    return "".join(
        "." if each.get("class") == "wb-point" else _digit(each) for each in group
    )


def _digit(path: ET.Element) -> str:
    """Look where bars lie in a cell of 14 by 28."""
    bars = re.findall(r"M([\d.]+) ([\d.]+)([hv])([\d.]+)", path.get("d", ""))
    middles = set()
    for left, top, way, run in bars:
        x = float(left) + (float(run) / 2 if way == "h" else 0)
        y = float(top) + (float(run) / 2 if way == "v" else 0)
        middles.add((round(x / 7), round(y / 7)))
    places = ((1, 0), (2, 1), (2, 3), (1, 4), (0, 3), (0, 1), (1, 2))
    return _BARS["".join("01"[place in middles] for place in places)]


def read_words(instrument: Instrument, said: str) -> Decimal:
    """Read a value off the sentence: a number, a count of lines, a count of tenths."""
    number = re.search(r"numbered (−?\d+(?:\.\d+)?)", said)
    assert number is not None
    value = Decimal(number[1].replace("−", "-"))
    head = said.partition(" line")[0].split()
    lines = next((_PLACES[word] for word in head if word in _PLACES), 0)
    tenths = re.search(r"(\w+) tenths? of the way", said)
    parts = lines + Decimal(_COUNTS.index(tenths[1]) if tenths else 0) / 10
    return value + parts * instrument.division
