"""Templates: nothing that goes in is taken for HTML, and nothing is left out."""

from __future__ import annotations

import pytest
from jinja2 import UndefinedError

from workbook.issuing.template import open_templates


def test_what_goes_in_is_escaped() -> None:
    pages = open_templates("workbook.issuing")
    shown = pages.from_string("{{ name }}").render(name="<b>&'\"")
    assert shown == "&lt;b&gt;&amp;&#39;&#34;"


def test_a_name_that_is_not_given_is_an_error() -> None:
    with pytest.raises(UndefinedError, match="name"):
        open_templates("workbook.issuing").from_string("{{ name }}").render()
