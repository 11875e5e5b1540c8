"""
What marking gives: a mark for each step, and for each sheet, each with its reasons.

They are plain data: they cross between processes, and stand in the record of a
marking as they are.
"""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from msgspec import Struct

from workbook.wire.answer import Answer, Noted
from workbook.wire.verdict import Outcome, Verdict


class StepMark(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What one step earns, and why."""

    step: str
    #: The answer that was marked, whole; None where nothing was answered.
    answer: Answer | None
    verdict: Verdict
    #: What was typed, built or ticked, in one printable line.
    typed: str
    #: Where an answer of this student is accepted, in words; empty where nothing
    #: lies between two ends.
    band: str = ""
    #: How many answers were attempts, the one that was marked being the last [-].
    attempts: int = 0
    #: When the answer that was marked was given, by the student's own clock.
    at: datetime | None = None
    #: What the rules give, whatever a person says [point].
    earned: Decimal
    #: What counts [point].
    points: Decimal
    out_of: Decimal
    reason: str
    #: Who gave the points by hand; empty where the rules did.
    marker: str = ""

    @property
    def outcome(self) -> Outcome:
        """What became of the answer that was marked."""
        return self.verdict.outcome

    @property
    def read_as(self) -> str:
        """How the text was read; empty when it was not."""
        return self.verdict.read_as

    @property
    def waits(self) -> bool:
        """Whether a person is to read it, and nobody has yet."""
        return self.outcome is Outcome.KEPT and not self.marker


class SheetMark(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What one hand-in earns."""

    student: str
    lab: str
    steps: tuple[StepMark, ...]
    #: What is taken off once a sheet [point].
    taken_off: Decimal
    #: What is taken off for being late [point].
    late_off: Decimal = Decimal(0)
    #: The steps' points, less what is taken off, or what a person gives the sheet.
    points: Decimal
    out_of: Decimal
    #: The path of the hand-in below its folder.
    file: str
    #: When it came in, by the time that counts.
    handed_in: datetime | None = None
    #: What the student may read as well.
    remark: str
    #: What is for staff alone: it starts a conversation, and changes no mark.
    notes: tuple[str, ...] = ()
    #: The readings of the student's own bench, by step: the first that was noted, then
    #: each that took its place.
    noted: dict[str, tuple[Noted, ...]] = {}
