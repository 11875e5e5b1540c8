"""
What is right where no quantity is asked, in words.

For an instructor's answer book; it holds the key.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.judge.choice import limiting_reagent

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.labfile.half import Ask

_ANY = "Any answer: the first one stands."
_A_PERSON = "A person marks it."


def say_right(case: Case, ask: Ask) -> str:
    """
    Return the right answer to a step that asks for no quantity.

    Parameters
    ----------
    case : Case
        The student's copy of the lab.
    ask : Ask
        The step.

    Returns
    -------
    str
        One line; of a text, what earns its marks.
    """
    key = case.graph.lab.key
    texts = dict(ask.options)
    match ask.kind:
        case "prediction":
            return _ANY
        case "text":
            return " ".join((_A_PERSON, *key.look_for[ask.id]))
    if ask.id in key.limiting:
        return texts[limiting_reagent(case, ask.id, case.values)]
    return "; ".join(texts[option] for option in key.right[ask.id])
