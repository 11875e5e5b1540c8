"""A kernel with a page in it that a test types into, in a process of its own."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

#: What the process does: one order a line, one reply a line.
_PROGRAM = """
import json, resource, sys
from html import unescape
from workbook import open_sheet
page = open_sheet("postlab", sys.argv[1])
submission = page.hand_in()

def show(step):
    card = page.card(step)
    return [card.pad.entry.text, unescape(card.says.value)]

def obey(order, step, text):
    if order == "type":
        page.card(step).pad.entry.box.set_state({"value": text})
    elif order == "check":
        page.card(step).check()
    elif order == "limit":
        hard = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
        most = int(text) if text else hard
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, hard))
    elif order == "hand in":
        return submission.hand_in()
    elif order == "head":
        return page.head.value
    return show(step) if step else ""

for line in sys.stdin:
    print(json.dumps(obey(*json.loads(line))), flush=True)
"""


class Kernel:
    """
    A process that holds the post-lab page of a folder, as a kernel does.

    Parameters
    ----------
    folder : Path
        The student's folder.
    course : Path
        The course file that its checker serves.
    """

    def __init__(self, folder: Path, course: Path) -> None:
        # A session of its own, as a kernel has, so that a signal reaches it alone.
        self._process = subprocess.Popen(
            (sys.executable, "-c", _PROGRAM, str(folder)),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={**os.environ, "WORKBOOK_COURSE": str(course)},
            start_new_session=True,
        )

    def close(self) -> None:
        """End the process, as closing a notebook does."""
        with self._process:
            self._process.terminate()

    def send(self, order: str, step: str = "", text: str = "") -> None:
        """Give an order, and do not wait for its reply."""
        assert self._process.stdin is not None
        self._process.stdin.write(json.dumps([order, step, text]).encode() + b"\n")
        self._process.stdin.flush()

    def receive(self) -> str:
        """Return the next reply that is a text."""
        assert self._process.stdout is not None
        return str(json.loads(self._process.stdout.readline()))

    def see(self) -> tuple[str, str]:
        """Return what stands in the card of the last order, and what it says."""
        assert self._process.stdout is not None
        text, says = json.loads(self._process.stdout.readline())
        return text, says

    def type(self, step: str, text: str) -> str:
        """Type in the place of what stands in a card, and return what it says."""
        self.send("type", step, text)
        return self.see()[1]

    def check(self, step: str) -> str:
        """Check a card, and return what it says."""
        self.send("check", step)
        return self.see()[1]

    def show(self, step: str) -> tuple[str, str]:
        """Return what stands in a card, and what it says."""
        self.send("show", step)
        return self.see()

    def limit(self, size: int | None) -> None:
        """Let no file grow beyond a size [byte]; None lets them grow again."""
        self.send("limit", "", "" if size is None else str(size))
        self.receive()

    def head(self) -> str:
        """Return the head of the page."""
        self.send("head")
        return self.receive()

    def hand_in(self) -> str:
        """Write the hand-in, and return what is said of it."""
        self.send("hand in")
        return self.receive()

    def find_checker(self) -> int:
        """Return the process number of the checker that this kernel started."""
        pid = self._process.pid
        (child,) = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
        return int(child)

    def kill(self) -> None:
        """Kill the process, as a machine that runs out of memory does."""
        self._process.send_signal(signal.SIGKILL)
        self._process.wait()
