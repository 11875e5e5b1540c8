"""In which order several processes take the files of tests."""

from __future__ import annotations

#: What takes longest, the longest first: whichever came last would be waited for alone.
_LONG = (
    "tests/hub/",
    "tests/browser/test_labs.py",
    "tests/browser/test_keys.py",
    "tests/browser/test_kept.py",
    "tests/browser/test_desk.py",
    "tests/browser/",
    "tests/test_types.py",
    "tests/checker/test_launch.py",
    "tests/service/",
    "tests/picture/",
    "tests/exercises/",
)


def find_turn(nodeid: str) -> int:
    """
    Return when a test has its turn, the lowest first.

    Parameters
    ----------
    nodeid : str
        As pytest names the test.

    Returns
    -------
    int
        The same for all tests of a file.
    """
    turns = (turn for turn, path in enumerate(_LONG) if nodeid.startswith(path))
    return next(turns, len(_LONG))
