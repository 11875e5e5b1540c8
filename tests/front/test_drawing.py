"""Only shapes and words of a picture get into the page."""

from __future__ import annotations

import pytest

from workbook.front.drawing import is_plain

SVG = '<svg xmlns="http://www.w3.org/2000/svg" {}>{}</svg>'


def test_shapes_and_words_are_let_through() -> None:
    inside = '<title>A</title><g fill="var(--x, #fff)"><path d="M0 0h9"/></g>'
    assert is_plain(SVG.format('role="img"', inside))


@pytest.mark.parametrize(
    "inside",
    [
        "<script>alert(1)</script>",
        "<foreignObject><p>a</p></foreignObject>",
        '<image href="http://example.org/a.png"/>',
        '<use href="#a"/>',
        '<a href="javascript:alert(1)"><text>a</text></a>',
        '<path onload="alert(1)"/>',
        '<path ONLOAD="alert(1)"/>',
        '<path style="background:url(http://example.org)"/>',
        '<path xmlns:x="http://www.w3.org/1999/xlink" x:href="a"/>',
        '<set attributeName="d" onbegin="alert(1)"/>',
        '<p xmlns="http://www.w3.org/1999/xhtml">a</p>',
    ],
)
def test_what_could_run_or_fetch_is_not(inside: str) -> None:
    assert not is_plain(SVG.format("", inside))


@pytest.mark.parametrize(
    "picture",
    [
        "",
        "no drawing",
        "<svg/>",
        '<svg xmlns="http://www.w3.org/2000/svg">',
        '<p xmlns="http://www.w3.org/2000/svg"/>',
        '<!DOCTYPE a [<!ENTITY b "c">]><svg xmlns="http://www.w3.org/2000/svg">&b;</svg>',
        '<?xml-stylesheet href="a"?><svg xmlns="http://www.w3.org/2000/svg"/>',
        '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>',
    ],
)
def test_what_is_no_plain_drawing_is_not_shown(picture: str) -> None:
    assert not is_plain(picture)
