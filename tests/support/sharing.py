"""How two processes share the tests."""

from __future__ import annotations

from typing_extensions import override
from xdist.scheduler import LoadFileScheduling

#: Tests with JupyterLab in a real browser.
_BROWSER = "tests/browser/"

#: Those of them that start a JupyterLab of their own.
_APART = (
    "tests/browser/test_desk.py",
    "tests/browser/test_guide.py",
    "tests/browser/test_labs.py",
    "tests/browser/test_preview.py",
)


class BrowserTogether(LoadFileScheduling):  # type: ignore[misc]  # xdist has no types
    """
    Share the tests file by file, and leave those of one JupyterLab to one process.

    They are the longest part: what needs no part of it goes to the other process.
    """

    @override
    def _split_scope(self, nodeid: str) -> str:
        if nodeid.startswith(_BROWSER) and not nodeid.startswith(_APART):
            return _BROWSER
        return str(super()._split_scope(nodeid))
