"""How two processes share the tests."""

from __future__ import annotations

from typing_extensions import override
from xdist.scheduler import LoadFileScheduling

#: Tests with JupyterLab in a real browser.
_BROWSER = "tests/browser/"


class BrowserTogether(LoadFileScheduling):  # type: ignore[misc]  # xdist has no types
    """
    Share the tests file by file, and leave those in a browser to one process.

    So there is one JupyterLab, and a page that is waited for is not slowed down by
    another.
    """

    @override
    def _split_scope(self, nodeid: str) -> str:
        if nodeid.startswith(_BROWSER):
            return _BROWSER
        return str(super()._split_scope(nodeid))
