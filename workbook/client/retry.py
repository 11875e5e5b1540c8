"""Sending what waits again and again, while the kernel goes on with everything else."""

from __future__ import annotations

import asyncio
from itertools import chain, repeat
from typing import TYPE_CHECKING

from workbook.client.delay import Delay

if TYPE_CHECKING:
    from workbook.client.outbox import Outbox

#: How long to wait before each try [s]; the last holds from then on.
PAUSES_S = (2.0, 4.0, 8.0, 16.0, 32.0, 60.0)


class Retry:
    """
    What sends waiting answers again, for as long as a moment may help.

    Parameters
    ----------
    outbox : Outbox
        What waits.
    pauses_s : tuple of float
        How long to wait before each try; the last holds from then on [s].
    """

    def __init__(self, outbox: Outbox, pauses_s: tuple[float, ...] = PAUSES_S) -> None:
        self._outbox = outbox
        self._pauses_s = pauses_s
        #: What sends; kept, or the loop would let it go. None while nothing waits.
        self.task: asyncio.Task[None] | None = None

    def start(self, *, is_at_once: bool = False) -> bool:
        """
        Begin to send again, unless that is done already, or no loop runs here.

        Parameters
        ----------
        is_at_once : bool
            True to leave out the first pause.

        Returns
        -------
        bool
            False where nothing will be sent: nothing waits, or there is no loop.
        """
        if self.task is not None and not self.task.done():
            return True
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return False
        if not self._outbox.waiting:
            return False
        pauses_s = (0.0, *self._pauses_s) if is_at_once else self._pauses_s
        self.task = loop.create_task(self._run(pauses_s))
        return True

    def stop(self) -> None:
        """Send nothing more."""
        if self.task is not None:
            self.task.cancel()

    async def _run(self, pauses_s: tuple[float, ...]) -> None:
        """Send what waits after each pause, until nothing waits or nothing helps."""
        for pause_s in chain(pauses_s, repeat(pauses_s[-1])):
            await asyncio.sleep(pause_s)
            if self._outbox.waiting and await self._outbox.is_in_reach():
                await self._outbox.send_aside()
                if self._outbox.delay is Delay.MENDED:
                    return
            # What has to wait from now on begins with the shortest pause again.
            if not self._outbox.waiting:
                return
