"""What a student reads of a slip: the sentences of ``sentences.toml`` beside this."""

from __future__ import annotations

import tomllib
from importlib import resources
from typing import TYPE_CHECKING

from workbook.graph.slip_rule.kind import SlipKind

if TYPE_CHECKING:
    from collections.abc import Mapping

#: How a sentence of several mistakes begins, and what stands between them.
_SEVERAL = "More than one mistake leads to this value."
_OR = "Or:"


def _load() -> tuple[dict[SlipKind, str], dict[frozenset[SlipKind], str]]:
    text = resources.files(__package__).joinpath("sentences.toml").read_text("utf-8")
    data = tomllib.loads(text)
    alone = {SlipKind(kind): says for kind, says in data["alone"].items()}
    together = {
        frozenset(map(SlipKind, row["kinds"])): row["says"] for row in data["together"]
    }
    return alone, together


#: The sentence of each kind, and of kinds that lead to the same value.
ALONE, TOGETHER = _load()


def say(kind: SlipKind, reworded: Mapping[str, str]) -> str:
    """
    Return the sentence of one mistake.

    Parameters
    ----------
    kind : SlipKind
        Any but an author's own, which brings its sentence.
    reworded : mapping of str to str
        Sentences of the lab's author, by the text of a kind.

    Returns
    -------
    str
        Names the error.
    """
    return reworded.get(kind.value, ALONE.get(kind, ""))


def say_together(
    kinds: frozenset[SlipKind], own: tuple[str, ...], reworded: Mapping[str, str]
) -> str:
    """
    Return the sentence of mistakes that lead to one value.

    Parameters
    ----------
    kinds : frozenset of SlipKind
        At least one, unless there is an author's own.
    own : tuple of str
        The sentences of the author's own mistakes among them.
    reworded : mapping of str to str
        Sentences of the lab's author, by the text of a kind.

    Returns
    -------
    str
        Names each of them; none is favoured.
    """
    is_plain = not own and not any(kind.value in reworded for kind in kinds)
    if is_plain and kinds in TOGETHER:
        return TOGETHER[kinds]
    known = (say(kind, reworded) for kind in SlipKind if kind in kinds)
    said = list(dict.fromkeys((*own, *known)))
    return said[0] if len(said) == 1 else f"{_SEVERAL} {f' {_OR} '.join(said)}"
