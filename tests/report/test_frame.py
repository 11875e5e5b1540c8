"""The frame of every page for people."""

from __future__ import annotations

import pytest
from jinja2 import UndefinedError

from workbook.report.frame import fill_page


def test_what_is_missing_is_an_error_and_no_blank() -> None:
    with pytest.raises(UndefinedError):
        fill_page("page.html", {})
