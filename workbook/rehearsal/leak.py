"""Whether a sentence tells a number that the student could not have known."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from workbook.labfile.offer import offers

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph

_DIGIT = re.compile(r"\d")
_NUMBER = re.compile(r"\d+(?:[.,]\d+)*")

#: Lines of a pad are counted in sentences: that number is no value.
_LINE = re.compile(r"\b[Ll]ines? \d+")


def find_numbers(graph: Graph, sentence: str, typed: str) -> tuple[str, ...]:
    """
    Return the numbers in a sentence that are not public.

    Parameters
    ----------
    graph : Graph
        The lab: what it calls its substances and quantities is public.
    sentence : str
        What a student reads.
    typed : str
        What the student wrote; it may be quoted.

    Returns
    -------
    tuple of str
        Empty for almost every sentence.
    """
    if not _DIGIT.search(sentence):
        return ()
    rest = _LINE.sub("", sentence)
    for text in _public(graph):
        rest = rest.replace(text, "")
    known = set(_NUMBER.findall(typed))
    return tuple(each for each in _NUMBER.findall(rest) if each not in known)


@lru_cache(maxsize=16)
def _public(graph: Graph) -> tuple[str, ...]:
    """Return the public texts that hold a digit, the longest first."""
    public = graph.lab.public
    texts = {label.text for label in public.labels.values()}
    texts |= {label.unit.symbol for label in public.labels.values()}
    texts |= {each.name for each in public.species.values()}
    texts |= {each.formula or "" for each in public.species.values()}
    texts |= {text for ask in public.asks for _, text in ask.options}
    for ask in public.asks:
        if ask.kind == "chain":
            texts |= {each.label for each in offers(public, ask, graph.weights)}
    # The unit of a plain number is printed as 1, which is no text to leave out.
    found = (text for text in texts if _DIGIT.search(text) and not text.isdigit())
    return tuple(sorted(found, key=len, reverse=True))
