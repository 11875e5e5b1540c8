"""What the checker says of an attempt: a closed list of outcomes, and a sentence."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct


class Outcome(Enum):
    """What became of an attempt."""

    #: The value follows from the student's own readings and earlier answers.
    RIGHT = "right"
    #: It follows from an earlier answer that was itself wrong.
    FOLLOWS = "follows"
    #: The value is right, or follows; its number of figures is not.
    FIGURES = "figures"
    #: A known mistake gives this value, and the sentence names it.
    SLIP = "slip"
    #: The value does not follow, and no single explanation is known.
    WRONG = "wrong"
    #: The unit measures something else than what is asked.
    DIMENSION = "dimension"
    #: What stands there holds, and something is missing; or parts of it hold.
    PARTLY = "partly"
    #: A prediction was made: it earns its points, and is not replaced.
    COMMITTED = "committed"
    #: A reading of the student's own bench is noted, and fixed from now on.
    NOTED = "noted"
    #: A text was written: it earns what a person gives it.
    KEPT = "for a person"
    #: The text can't be read: not an attempt.
    UNREAD = "unread"
    #: The text can be read in two ways: a question, not an attempt.
    ASKED = "asked"
    #: Too few figures to tell whether it follows: not an attempt.
    COARSE = "coarse"
    #: It does not suit the instrument or its window, or gives no reason for a change:
    #: it is not noted, and not an attempt.
    UNFIT = "not noted"
    #: It rests on a reading of the student's own that is not noted yet: not an attempt.
    EARLY = "early"
    #: Nothing was typed: not an attempt.
    BLANK = "blank"
    #: The checker could not be reached: the attempt is kept and sent again.
    NOT_JUDGED = "not judged"


#: Outcomes that cost no try, because the checker never came to the value.
NO_ATTEMPT = frozenset(
    {
        Outcome.UNREAD,
        Outcome.ASKED,
        Outcome.COARSE,
        Outcome.UNFIT,
        Outcome.EARLY,
        Outcome.BLANK,
        Outcome.NOT_JUDGED,
    }
)


class Verdict(Struct, frozen=True, forbid_unknown_fields=True):
    """An outcome with the sentence that a student reads."""

    outcome: Outcome
    #: One or two sentences; never a number of the key.
    sentence: str
    #: How the text was read, ``"13.6 g, 3 figures"``; empty when it was not.
    read_as: str = ""
    #: True when the value itself is right or follows, whatever became of the rest.
    value_holds: bool = False
    #: Whether the chain or the lines of working hold; None where none are asked.
    method_holds: bool | None = None
    #: True when the value rests on an earlier answer that was wrong.
    follows: bool = False
    #: False when the unit was left out and had to be supposed.
    unit_written: bool = True
    #: Which parts of a table hold, in the order of the step; empty for other kinds.
    parts: tuple[bool, ...] = ()
    #: Algebra: index of the line that stopped following. Chain: of the factor. Order:
    #: of the first of two cards.
    at: int | None = None
