"""The public half and the key half: what goes where."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.errors import AuthorError
from workbook.labfile.half import KeyHalf, PublicHalf

if TYPE_CHECKING:
    from workbook.labfile.half import Lab


def test_the_halves_share_no_field_and_no_root() -> None:
    public, key = set(PublicHalf.__slots__), set(KeyHalf.__slots__)
    assert not public & key
    assert PublicHalf.__bases__ == KeyHalf.__bases__ == (object,)


def test_nothing_of_the_key_stands_in_the_public_half(lab: Lab) -> None:
    shown = repr(lab.public)
    # The hidden draw, the relations, a quantity that no step asks for.
    for secret in ("recovery", "0.62", "Operation(", "Call(", "'lye_needed': KeyHalf"):
        assert secret not in shown


def test_steps_before_the_lab_come_first(lab: Lab) -> None:
    steps = [ask.id for ask in lab.public.asks]
    assert steps.index("lye_needed_volume") < steps.index("oil_volume")
    assert len(steps) == len(lab.public.prelab) + len(lab.public.postlab)


def test_findings_are_led_by_file_and_line_in_the_order_of_lines(lab: Lab) -> None:
    error = lab.refuse([(("quantities",), "later."), (("lab", "title"), "first.")])
    assert isinstance(error, AuthorError)
    assert [finding.split(": ")[1] for finding in error.findings] == [
        "first.",
        "later.",
    ]
    assert error.findings[0].startswith(f"{lab.path}:")
