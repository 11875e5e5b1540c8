"""Answers that are the same for everybody, and that a text of the sheet tells."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.probe import probe_class
from workbook.graph.quantity import Origin
from workbook.measure.rounding import Ties, round_place

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Graph
    from workbook.labfile.finding import Finding
    from workbook.labfile.half import Ask

#: Figures with which a number in a text is no chance [-].
_TELLING_FIGURES = 3

#: A number that stands by itself: no part of a formula, a code or a unit.
_NUMBER = re.compile(r"(?<![\w.+-])[0-9]+\.?[0-9]*(?![\w.]*[A-Za-z0-9])")


def find_printed(graph: Graph) -> Iterator[Finding]:
    """
    Find texts that tell the answer of a step.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    iterator of Finding
        One for each text and answer; only an answer that is the same for everybody
        can stand in a text.
    """
    answers = dict(_fixed_answers(graph))
    for place, text in _texts(graph):
        for number in map(Decimal, _NUMBER.findall(text)):
            for name, value in answers.items():
                if _is_told(number, value):
                    sentence = (
                        f"the text holds {number}, which is the answer of {name!r}. "
                        "Leave the number out."
                    )
                    yield place, sentence


def _fixed_answers(graph: Graph) -> Iterator[tuple[str, float]]:
    solved = probe_class(graph)
    for name in graph.lab.public.asked:
        quantity = graph.quantities[name]
        if quantity.origin is Origin.DERIVED and np.ptp(solved[name]) == 0:
            yield name, float(np.ravel(quantity.from_base(solved[name]))[0])


def _is_told(number: Decimal, value: float) -> bool:
    if len(number.as_tuple().digits) < _TELLING_FIGURES or not np.isfinite(value):
        return False
    place = -len(str(number).partition(".")[2])
    return round_place(Decimal(value), place, Ties.EVEN) == number


def _texts(graph: Graph) -> Iterator[tuple[tuple[str | int, ...], str]]:
    public = graph.lab.public
    yield ("lab", "about"), public.about
    for index, caution in enumerate(public.cautions):
        yield ("lab", "cautions", index), caution
    for part, asks in (("prelab", public.prelab), ("postlab", public.postlab)):
        for index, ask in enumerate(asks):
            for place, text in _texts_of(ask):
                yield (part, index, *place), text


def _texts_of(ask: Ask) -> Iterator[tuple[tuple[str, ...], str]]:
    yield ("asks",), ask.asks
    for key, text in ask.options:
        yield ("options", key), text
