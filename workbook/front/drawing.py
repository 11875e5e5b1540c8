"""
A picture from the checker, let into the page.

It is put in as it is, so that it takes the theme's colours. A sheet is a file, and a
file can be changed: only shapes and words are let through, and nothing that could
run or fetch.
"""

from __future__ import annotations

from xml.etree import ElementTree as ET

_ELEMENTS = {"circle", "desc", "g", "path", "rect", "svg", "text", "title"}
_SPACE = "{http://www.w3.org/2000/svg}"


def is_plain(picture: str) -> bool:
    """
    Return whether a picture holds shapes and words only.

    Parameters
    ----------
    picture : str
        As it stands on the sheet.

    Returns
    -------
    bool
        False also for the empty text, and for what is no SVG.

    Examples
    --------
    >>> is_plain('<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0h9"/></svg>')
    True
    >>> is_plain('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>')
    False
    """
    # A document type could hold entities that grow without end.
    if "<!" in picture or "<?" in picture:
        return False
    try:
        root = ET.fromstring(picture)  # noqa: S314  without a document type, see above
    except ET.ParseError:
        return False
    return root.tag == f"{_SPACE}svg" and all(map(_is_harmless, root.iter()))


def _is_harmless(element: ET.Element) -> bool:
    names = [name.casefold() for name in element.attrib]
    return element.tag.removeprefix(_SPACE) in _ELEMENTS and not any(
        name.startswith(("on", "{")) or name in {"href", "style"} for name in names
    )
