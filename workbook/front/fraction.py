"""A factor chain for paper: fractions with their units written out, in MathML."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.front.cancel import Count, Link, Reduced

#: Stands for a number that the student has from elsewhere.
_OPEN = "<mtext>own value</mtext>"

_GAP = '<mspace width="0.3em"/>'


def show_fractions(start: str, links: Sequence[Link], reduced: Reduced) -> str:
    """
    Return HTML of a factor chain with its cancelled units struck out.

    Parameters
    ----------
    start : str
        What the chain starts from, in words.
    links : sequence of Link
        The start, and each factor.
    reduced : Reduced
        What `cancel` gave for them.

    Returns
    -------
    str
        One formula a link, so that a long chain can wrap.
    """
    marks = zip(links, reduced.tops, reduced.bottoms, strict=True)
    parts = (
        _show_start(start, link.top, is_struck=top)
        if link.bottom is None
        else _show_fraction(
            _show_count(link.top, is_struck=top),
            _show_count(link.bottom, is_struck=bottom),
        )
        for link, top, bottom in marks
    )
    return " ".join(f'<math displaystyle="true">{part}</math>' for part in parts)


def _show_start(start: str, count: Count, *, is_struck: bool) -> str:
    unit = _show_unit(count.unit, is_struck=is_struck)
    return f"<mrow><mtext>{escape(start)} in</mtext>{_GAP}{unit}</mrow>"


def _show_fraction(top: str, bottom: str) -> str:
    return f"<mrow><mo>×</mo><mfrac>{top}{bottom}</mfrac></mrow>"


def _show_count(count: Count, *, is_struck: bool) -> str:
    number = f"<mn>{escape(count.number)}</mn>" if count.number else _OPEN
    unit = f"{count.unit} {count.of}".strip()
    if not unit:
        return f"<mrow>{number}</mrow>"
    return f"<mrow>{number}{_GAP}{_show_unit(unit, is_struck=is_struck)}</mrow>"


def _show_unit(unit: str, *, is_struck: bool) -> str:
    # HTML may stand in this element, and no other in MathML Core strikes out.
    shown = f"<s>{escape(unit)}</s>" if is_struck else escape(unit)
    return f"<mtext>{shown}</mtext>"
