"""The texts of an HTML page, apart from its style, each as it stands in its element."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from typing_extensions import override

#: Digits with the points and commas between them.
_NUMBER = re.compile(r"\d+(?:[.,]\d+)*")

#: What has no end tag: HTML Living Standard, section 13.1.2, "Void elements".
_VOID = {"br", "img", "meta"}


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.tags: list[str] = []
        self.open: list[str] = []

    @override
    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.tags.append(tag)
        if tag not in _VOID:
            self.open.append(tag)

    @override
    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag, tag

    @override
    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] != "style":
            self.texts.append(data)


def read_page(html: str) -> tuple[list[str], list[str]]:
    """
    Return the texts and the tags of a page; it fails on tags that do not match.

    Parameters
    ----------
    html : str
        A whole document.

    Returns
    -------
    tuple of list of str
        The texts in the order of the page, and the names of its elements.
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    assert reader.open == []
    return reader.texts, reader.tags


def find_numbers(text: str) -> set[str]:
    """
    Return every number of a text, as it is written there.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    set of str
        Digits with the points and commas between them.
    """
    return set(_NUMBER.findall(text))
