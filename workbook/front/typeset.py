r"""
LaTeX for MathJax, and the same in words for those who do not see it.

In MathJax's ``\text`` only ``\ $ { }`` need a backslash; everything that goes into
a page is escaped for HTML besides.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from workbook.relation.latex import set_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from workbook.front.cancel import Count, Link, Reduced

#: Stands for a number that the student has from elsewhere.
_OPEN_NUMBER = r"\square"
_OPEN_WORDS = "your value"


def show_math(latex: str, words: str = "") -> str:
    """
    Return HTML that shows LaTeX, and says *words* in its place to a screen reader.

    Parameters
    ----------
    latex : str
        Without dollar signs.
    words : str
        The same in words; empty when it stands beside in another form.

    Returns
    -------
    str
        A span for MathJax, and an unseen one.
    """
    spoken = f'<span class="wb-unseen">{escape(words)}</span>' if words else ""
    shown = escape(rf"\({latex}\)")
    # Inert, since MathJax makes each formula a stop of the Tab key.
    return f'<span class="wb-math" inert>{shown}</span>{spoken}'


def show_plain(text: str) -> str:
    """
    Return HTML that shows a text as it is, dollar signs included.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        A span that MathJax leaves alone.
    """
    return f'<span class="tex2jax_ignore mathjax_ignore">{escape(text)}</span>'


def show_chain(start: str, links: Sequence[Link], reduced: Reduced) -> str:
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
        One span a link, so that a long chain can wrap.
    """
    marks = zip(links, reduced.tops, reduced.bottoms, strict=True)
    parts = [
        _show_start(start, link.top, struck=top)
        if link.bottom is None
        else _show_link(_Side(link.top, top), _Side(link.bottom, bottom))
        for link, top, bottom in marks
    ]
    return f'<p class="wb-chain">{"".join(parts)}</p>'


@dataclass(frozen=True)
class _Side:
    """What stands above or below the line of a fraction."""

    count: Count
    is_struck: bool

    @property
    def latex(self) -> str:
        number = set_text(self.count.number) if self.count.number else _OPEN_NUMBER
        unit = f"{self.count.unit} {self.count.of}".strip()
        return rf"{number}\;{_strike(unit, struck=self.is_struck)}" if unit else number

    @property
    def words(self) -> str:
        words = _mention(self.count, struck=self.is_struck)
        return f"{self.count.number or _OPEN_WORDS} {words}".strip()


def _show_start(start: str, count: Count, *, struck: bool) -> str:
    latex = rf"{set_text(f'{start} in')}\;{_strike(count.unit, struck=struck)}"
    return show_math(latex, f"{start} in {_mention(count, struck=struck)}")


def _show_link(top: _Side, bottom: _Side) -> str:
    latex = rf"\times\dfrac{{{top.latex}}}{{{bottom.latex}}}"
    return show_math(latex, f"times {top.words} over {bottom.words}")


def _strike(unit: str, *, struck: bool) -> str:
    return rf"\cancel{{{set_text(unit)}}}" if struck else set_text(unit)


def _mention(count: Count, *, struck: bool) -> str:
    return f"{count.words} (cancelled)" if struck else count.words
