"""
Structures and schemes as SVG, drawn by RDKit when a lab is built.

A drawing brings its own light paper, so that dark ink is read on it in a dark page as
well, where a picture can't know the page's colours. It holds paths and words alone.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET
from xml.sax.saxutils import escape, quoteattr

from workbook.authoring.structure import read_smiles
from workbook.labfile.drawing import MARK

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from workbook.labfile.drawing import Drawing, Shape

_PAPER, _INK = "#ffffff", "#16191c"

#: Units of the drawing: a bond, a letter, the space around things, a line of words.
_BOND, _LETTER, _GAP, _LINE = 26, 15, 14, 20

#: Widths of an arrow, and of a character of words and of counts.
_ARROW, _CHARACTER, _SIGN = 64, 7.6, 11.5

#: Widths of what formulas are made of, as wide as the usual sans-serif faces have them.
_CAPITAL, _SMALL, _LOW = 16.0, 12.0, 9.0

#: A salt or a hydrate of more parts than this is written as its formula [-].
_MANY_PARTS = 3

#: A scheme that would be wider stands in two rows.
_WIDEST = 780

_SPACE = "{http://www.w3.org/2000/svg}"
_LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_RAISED = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")


@dataclass(frozen=True, slots=True)
class _Block:
    """Something that stands in a row: its size, and its pieces from the middle left."""

    width: float
    #: Above and below the middle line.
    above: float
    below: float
    pieces: str


def draw(drawing: Drawing) -> bytes:
    """
    Return a drawing as SVG.

    Parameters
    ----------
    drawing : Drawing
        What stands in it.

    Returns
    -------
    bytes
        The content of its file: a title, a description, paths and words.

    Raises
    ------
    MatterError
        If a SMILES can't be read.
    """
    rows = _fold(
        [_term(each) for each in drawing.left],
        [_term(each) for each in drawing.right],
        is_reversible=drawing.is_reversible,
    )
    width = max(sum(each.width for each in row) for row in rows) + 2 * _GAP
    body, height = _stack(rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{width:.0f}" '
        f'height="{height:.0f}" viewBox="0 0 {width:.0f} {height:.0f}" '
        f'{MARK}="{drawing.mark}" aria-label={quoteattr(drawing.words)}>\n'
        f"<title>{escape(drawing.title)}</title>\n<desc>{escape(drawing.words)}</desc>\n"
        f'<rect width="100%" height="100%" rx="8" fill="{_PAPER}"/>\n{body}</svg>\n'
    ).encode()


def _fold(
    left: list[_Block], right: list[_Block], *, is_reversible: bool
) -> list[list[_Block]]:
    """Put both sides into one row, or into two where one would be too wide."""
    if not right:
        return [_join(left)]
    arrow = _arrow(is_reversible=is_reversible)
    first, second = _join(left), [arrow, *_join(right)]
    whole = [*first, *second]
    is_wide = sum(each.width for each in whole) > _WIDEST
    return [first, second] if is_wide else [whole]


def _join(terms: Sequence[_Block]) -> list[_Block]:
    plus = _words("+", 18, _SIGN + _GAP)
    row = [each for term in terms for each in (plus, term)]
    return row[1:]


def _stack(rows: list[list[_Block]]) -> tuple[str, float]:
    """Lay rows below each other, and return their pieces with the height of all."""
    pieces, y = "", float(_GAP)
    for row in rows:
        middle = y + max(each.above for each in row)
        x = float(_GAP)
        for each in row:
            pieces += (
                f'<g transform="translate({x:.1f} {middle:.1f})">{each.pieces}</g>\n'
            )
            x += each.width
        y = middle + max(each.below for each in row) + _GAP
    return pieces, y


def _term(shape: Shape) -> _Block:
    drawn = _draw(shape)
    number = "" if shape.coefficient == 1 else str(shape.coefficient)
    lead = _SIGN * len(number) + (4 if number else 0)
    width = max(drawn.width + lead, _CHARACTER * len(shape.name)) + _GAP
    start = (width - drawn.width - lead) / 2
    label = (
        f'<text x="{width / 2:.1f}" y="{drawn.below + _LINE:.1f}" font-size="14" '
        f'text-anchor="middle" fill="{_INK}" font-family="sans-serif">'
        f"{escape(shape.name)}</text>"
    )
    count = _text(number, 18, start + lead / 2) if number else ""
    inner = f'<g transform="translate({start + lead:.1f} 0)">{drawn.pieces}</g>'
    return _Block(width, drawn.above, drawn.below + _LINE + 6, count + inner + label)


def _draw(shape: Shape) -> _Block:
    structure = read_smiles(shape.smiles) if shape.smiles else None
    if structure is None or (shape.formula and _is_heap(shape.smiles, structure)):
        return _formula(shape.formula)
    return _structure(structure)


def _is_heap(smiles: str, structure: Any) -> bool:  # noqa: ANN401  RDKit ships no types
    """Tell whether a formula says more: ions and water, or many parts side by side."""
    return not structure.GetNumBonds() or smiles.count(".") >= _MANY_PARTS


def _structure(structure: Any) -> _Block:  # noqa: ANN401  RDKit ships no types
    drawer_of = import_module("rdkit.Chem.Draw.rdMolDraw2D")
    drawer = drawer_of.MolDraw2DSVG(-1, -1)
    options = drawer.drawOptions()
    options.useBWAtomPalette()
    options.fixedBondLength = _BOND
    options.fixedFontSize = _LETTER
    options.padding = 0.03
    drawer_of.PrepareAndDrawMolecule(drawer, structure)
    drawer.FinishDrawing()
    root = ET.fromstring(drawer.GetDrawingText().encode("latin-1"))  # noqa: S314  ours
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    paths = "".join(_copy_path(path.attrib) for path in root.iter(f"{_SPACE}path"))
    shifted = f'<g transform="translate(0 {-height / 2:.1f})">{paths}</g>'
    return _Block(width, height / 2, height / 2, shifted)


def _copy_path(found: dict[str, str]) -> str:
    """Copy the line of a bond, or the outline of a letter or of a wedge."""
    data = " ".join(found["d"].split())
    style = found.get("style", "")
    is_line = "fill:none" in style
    paint = f'fill="none" stroke="{_INK}"' if is_line else f'fill="{_INK}"'
    width = re.search(r"stroke-width:([0-9.]+)", style)
    thick = f' stroke-width="{width[1]}"' if width and is_line else ""
    return f'<path d="{data}" {paint}{thick}/>'


def _formula(formula: str) -> _Block:
    shown = "".join(_print_formula(formula))
    return _words(shown, 20, sum(map(_measure, shown)))


def _measure(letter: str) -> float:
    """Return a width that a letter of a formula does not exceed."""
    if letter.isupper():
        return _CAPITAL
    return _SMALL if letter.islower() or letter.isascii() else _LOW


def _print_formula(formula: str) -> Iterator[str]:
    """Give a formula with counts lowered and charges raised."""
    body, _, charge = formula.partition("^")
    for number, part in enumerate(re.split(r"([·.•*∙⋅])", body)):
        lead = re.match(r"[0-9]*", part) if number else None
        count = lead[0] if lead else ""
        yield count + part[len(count) :].translate(_LOWERED)
    yield charge.translate(_RAISED)


def _words(text: str, size: int, width: float) -> _Block:
    return _Block(width, size, size * 0.6, _text(text, size, width / 2))


def _text(text: str, size: int, x: float) -> str:
    return (
        f'<text x="{x:.1f}" y="{size * 0.35:.1f}" font-size="{size}" '
        f'text-anchor="middle" fill="{_INK}" font-family="sans-serif">'
        f"{escape(text)}</text>"
    )


def _arrow(*, is_reversible: bool) -> _Block:
    end = _ARROW - 10
    lines = (
        [f"M10 -3H{end}m-8 -6l8 6", f"M{end} 3H10m8 6l-8 -6"]
        if is_reversible
        else [f"M10 0H{end}m-9 -6l9 6l-9 6"]
    )
    paths = "".join(
        f'<path d="{line}" fill="none" stroke="{_INK}" stroke-width="2"/>'
        for line in lines
    )
    return _Block(_ARROW, 10, 10, paths)
