"""
What a hub said of tokens lately, and how often it is asked about those it did not know.

Whoever sends one made-up token after the other would else have the hub asked each time.
A whole class may come from one address, that of a proxy: so only refusals count, and
whoever was known once is asked for again however many strangers come from there.
"""

from __future__ import annotations

import hashlib
import threading
import time
from collections import OrderedDict
from typing import TYPE_CHECKING, TypeVar

from workbook.checker.limit import Pace
from workbook.errors import CheckerRefusedError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.checker.caller import Caller

_Said = TypeVar("_Said")

#: How long the hub's word holds [s].
REMEMBERED_S = 60.0

#: So many tokens of one address may be refused at once [-]: as when a class comes with
#: the folders of last year.
BURST = 200

#: So many go on being asked about [1/s]: nothing to a hub.
RATE_PER_S = 5.0

#: How many tokens are remembered, and as many refused ones [-]; the oldest is forgotten
#: first.
MOST = 10_000

_STRANGERS = (
    "Many come from where you are whom the checker does not know; it looks again in a "
    "moment who you are."
)


class Memory:
    """
    Tokens by their fingerprints, with what was said of them.

    Parameters
    ----------
    clock : callable
        Gives the time [s].
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._callers: OrderedDict[bytes, tuple[float, Caller]] = OrderedDict()
        self._refused: OrderedDict[bytes, tuple[float, str]] = OrderedDict()
        self._pace = Pace(clock, BURST, RATE_PER_S)
        self._turn = threading.Lock()

    def recall(self, token: str) -> Caller | None:
        """
        Return whose token this is, as far as that was said lately.

        Parameters
        ----------
        token : str
            As it came.

        Returns
        -------
        Caller or None
            None where the hub has to be asked.

        Raises
        ------
        CheckerRefusedError
            If it was refused lately: with the same sentence.
        """
        mark, now = _mark(token), self._clock()
        with self._turn:
            until, refusal = self._refused.get(mark, (0.0, ""))
            if now < until:
                raise CheckerRefusedError(Why.CALLER.value, refusal)
            found = self._callers.get(mark)
        return found[1] if found is not None and now < found[0] else None

    def check_pace(self, token: str, address: str) -> None:
        """
        Refuse to ask about one more unknown token where too many were refused.

        Parameters
        ----------
        token : str
            As it came; one that was known before may always be asked about.
        address : str
            Where from.

        Raises
        ------
        CheckerRefusedError
            If it is to come again in a moment.
        """
        with self._turn:
            is_known = _mark(token) in self._callers
        if not is_known and self._pace.tell_wait(address):
            raise CheckerRefusedError(Why.AWAY.value, _STRANGERS)

    def keep(self, token: str, caller: Caller) -> None:
        """
        Remember whose token this is.

        Parameters
        ----------
        token : str
            As it came.
        caller : Caller
            As the hub said.
        """
        self._note(self._callers, token, caller)

    def keep_refused(self, token: str, address: str, refusal: str) -> None:
        """
        Remember that a token is nobody's, and count it where it came from.

        Parameters
        ----------
        token : str
            As it came.
        address : str
            Where from.
        refusal : str
            The sentence for people.
        """
        self._pace.spend(address)
        self._note(self._refused, token, refusal)
        with self._turn:
            self._callers.pop(_mark(token), None)

    def _note(
        self, held: OrderedDict[bytes, tuple[float, _Said]], token: str, said: _Said
    ) -> None:
        mark = _mark(token)
        with self._turn:
            held[mark] = (self._clock() + REMEMBERED_S, said)
            held.move_to_end(mark)
            if len(held) > MOST:
                held.popitem(last=False)


def _mark(token: str) -> bytes:
    """Return a token's fingerprint: no token is kept."""
    return hashlib.sha256(token.encode("utf-8", "replace")).digest()
