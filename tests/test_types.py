"""The whole project is typed as its settings say, and a leak does not type-check."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]

SNIPPET = """\
from __future__ import annotations

from workbook.labfile.half import KeyHalf, PublicHalf
from workbook.matter.elements import AtomicWeights
from workbook.solver.sheet import Shown, write_sheet
from workbook.wire.sheet import SheetId


def leak(half: {half}, sheet: SheetId, shown: Shown, weights: AtomicWeights) -> None:
    write_sheet(half, sheet, shown, weights)
"""


def check_leak(half: str, folder: Path) -> tuple[str, int]:
    """Return what the type checker says of a caller that hands over a half."""
    path = folder / "leak.py"
    path.write_text(SNIPPET.format(half=half), encoding="utf-8")
    return check(str(path))


def check(*arguments: str) -> tuple[str, int]:
    """
    Return what the type checker says, and its exit status.

    By the project's own settings each time, so that what one test has worked out is
    there for the next.
    """
    command = [sys.executable, "-m", "mypy", *arguments]
    done = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, check=False
    )
    return done.stdout + done.stderr, done.returncode


def test_the_type_checker_finds_nothing() -> None:
    said, status = check()
    assert status == 0, said


def test_a_sheet_is_written_from_the_public_half(tmp_path: Path) -> None:
    said, status = check_leak("PublicHalf", tmp_path)
    assert status == 0, said


def test_handing_the_key_to_the_sheet_does_not_type_check(tmp_path: Path) -> None:
    said, status = check_leak("KeyHalf", tmp_path)
    assert status == 1
    assert (
        'Argument 1 to "write_sheet" has incompatible type "KeyHalf"; expected '
        '"PublicHalf"  [arg-type]' in said
    )
