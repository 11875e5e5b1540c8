"""A finding in its parts, and put together again."""

from __future__ import annotations

import pytest

from workbook.authoring.told import Told, locate, read_told
from workbook.labfile.position import read_toml_text


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("a/lab.toml:12: no unit.", Told("a/lab.toml", 12, "no unit.")),
        ("a/lab.toml: there is none.", Told("a/lab.toml", None, "there is none.")),
        ("C:\\a\\lab.toml:3: x: y.", Told("C:\\a\\lab.toml", 3, "x: y.")),
        ("lab.toml:3: a\nb", Told("lab.toml", 3, "a\nb")),
    ],
)
def test_a_finding_is_parted_and_reads_the_same_again(written: str, told: Told) -> None:
    assert read_told(written) == told
    assert str(told) == written


def test_what_is_no_finding_is_refused() -> None:
    with pytest.raises(ValueError, match="does not start with a file"):
        read_told("Something is wrong.")


def test_findings_come_once_and_in_the_order_of_lines() -> None:
    located = read_toml_text("a = 1\nb = 2\n", "lab.toml")
    found = [(("b",), "second"), (("a",), "first"), (("b",), "second")]
    assert locate(found, located, "lab.toml") == (
        Told("lab.toml", 1, "first"),
        Told("lab.toml", 2, "second"),
    )
