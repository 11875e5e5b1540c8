"""The closed list of mistakes."""

from __future__ import annotations

import re

from workbook.graph.slip_rule.kind import SlipKind


def test_a_kind_is_called_in_a_file_as_in_the_code() -> None:
    assert all(kind.value == kind.name.lower() for kind in SlipKind)


def test_a_kind_is_words_without_a_number() -> None:
    assert all(re.fullmatch(r"[a-z]+(_[a-z]+)*", kind.value) for kind in SlipKind)
