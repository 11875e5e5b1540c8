"""What a record holds: what was tried and handed in, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from workbook.wire.answer import Answer
from workbook.wire.handin import Attempt
from workbook.wire.verdict import NO_ATTEMPT

if TYPE_CHECKING:
    from datetime import datetime

    from workbook.wire.verdict import Outcome

_answers: msgspec.json.Decoder[Answer] = msgspec.json.Decoder(Answer)


@dataclass(frozen=True, slots=True)
class Try:
    """An attempt as it is recorded."""

    #: Its name, unique on its sheet.
    id: str
    step: str
    #: The JSON of the answer: few of many are ever looked into.
    content: str
    received: datetime
    #: None until it is judged.
    outcome: Outcome | None = None

    @property
    def answer(self) -> Answer:
        """What was answered."""
        return _answers.decode(self.content)

    @property
    def counts(self) -> bool:
        """Whether it is an attempt; True while nobody knows."""
        return self.outcome not in NO_ATTEMPT

    def to_attempt(self) -> Attempt:
        """
        Return it in the form of a hand-in.

        Returns
        -------
        Attempt
            Its time is that of receiving.
        """
        return Attempt(self.id, self.step, self.answer, self.received)


class Taken(NamedTuple):
    """A hand-in that was sealed."""

    digest: str
    #: When it was received.
    at: datetime
