"""What became of the way to a result, joined with the verdict on the result."""

from __future__ import annotations

from dataclasses import dataclass

from msgspec.structs import replace

from workbook.judge import words
from workbook.wire.verdict import Outcome, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """The way to a result, judged apart from the result."""

    holds: bool
    #: What is wrong; empty when it holds.
    sentence: str = ""
    #: The index of the line or factor that is at fault.
    at: int | None = None
    #: True when a line could not be read: then it costs no try.
    unread: bool = False


def join(working: Working, value: Verdict) -> Verdict:
    """
    Return the verdict on a step that asks for its working as well as its result.

    Parameters
    ----------
    working : Working
        The way to the result.
    value : Verdict
        The verdict on the result alone.

    Returns
    -------
    Verdict
        Right only if both are; `value_holds` and `method_holds` keep them apart.
    """
    if working.holds:
        is_off = value.outcome is Outcome.WRONG
        sentence = words.RESULT_NOT if is_off else value.sentence
        return replace(value, sentence=sentence, method_holds=True)
    outcome, sentence = Outcome.WRONG, working.sentence
    if working.unread:
        outcome = Outcome.UNREAD
    elif value.outcome is Outcome.DIMENSION:
        outcome, sentence = value.outcome, f"{sentence} {value.sentence}"
    elif value.value_holds:
        said = words.RESULT_FOLLOWS if value.follows else words.RESULT_ALL_THE_SAME
        sentence = f"{sentence} {said}"
    return replace(
        value, outcome=outcome, sentence=sentence, method_holds=False, at=working.at
    )
