"""The public half and the key half: what goes where, and that no mix-up type-checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from mypy import api

from workbook.errors import AuthorError
from workbook.labfile.half import KeyHalf, PublicHalf

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.half import Lab

SNIPPET = """\
from workbook.labfile.half import KeyHalf, PublicHalf
from workbook.matter.elements import AtomicWeights
from workbook.solver.sheet import Shown, write_sheet
from workbook.wire.sheet import SheetId


def leak(half: {half}, sheet: SheetId, shown: Shown, weights: AtomicWeights) -> None:
    write_sheet(half, sheet, shown, weights)
"""


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder in which the type checker keeps what both tests need."""
    return tmp_path_factory.mktemp("mypy")


def check(half: str, cache: Path) -> tuple[str, int]:
    """Return what the type checker says of a caller that hands over a half."""
    said, faults, status = api.run(
        [
            "--config-file=",
            "--follow-imports=silent",
            "--ignore-missing-imports",
            f"--cache-dir={cache}",
            "-c",
            SNIPPET.format(half=half),
        ]
    )
    return said + faults, status


def test_a_sheet_is_written_from_the_public_half(cache: Path) -> None:
    assert check("PublicHalf", cache) == (
        "Success: no issues found in 1 source file\n",
        0,
    )


def test_handing_the_key_to_the_sheet_does_not_type_check(cache: Path) -> None:
    said, status = check("KeyHalf", cache)
    assert status == 1
    assert (
        'Argument 1 to "write_sheet" has incompatible type "KeyHalf"; expected '
        '"PublicHalf"  [arg-type]' in said
    )


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
