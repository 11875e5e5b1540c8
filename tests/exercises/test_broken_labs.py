"""A mistake in any lab that ships ends in a sentence with its line and the mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.breakage import BREAKAGES, Breakage, Broken, make_mistake
from tests.support.lab import CHALK, LIME
from workbook.authoring.inspection import Inspection, inspect_lab
from workbook.authoring.sketch import sketch_lab

EXERCISES = Path(__file__).parents[2] / "exercises"

#: Good files by name: those that ship, small ones, and one that was just begun.
GOOD = {
    path.parent.name: path.read_text("utf-8") for path in EXERCISES.glob("*/lab.toml")
} | {
    "chalk": CHALK,
    "lime": LIME,
    "new": sketch_lab("new", "metal=Mg + acid=HCl -> salt=MgCl2 + gas=H2"),
}

#: Every mistake that each file has a place for.
CASES = [
    pytest.param(broken, breakage, id=f"{name}: {breakage.what}")
    for name, text in sorted(GOOD.items())
    for breakage in BREAKAGES
    if (broken := make_mistake(text, breakage))
]


def inspect(folder: Path, text: str) -> Inspection:
    """Return what is said of a lab file; one draw is enough for a mistake."""
    (folder / "lab.toml").write_text(text, encoding="utf-8")
    return inspect_lab(folder, 1)


@pytest.mark.parametrize(("broken", "breakage"), CASES)
def test_a_mistake_ends_in_a_sentence_with_its_line_and_the_mend(
    tmp_path: Path, broken: Broken, breakage: Breakage
) -> None:
    told = inspect(tmp_path, broken.text).findings
    named = [each for each in told if breakage.says in each.says]
    assert named, told
    assert broken.line in {each.line for each in named}, told


def test_a_hundred_files_are_broken_over_several_labs() -> None:
    assert len(CASES) >= 100
    assert len(GOOD) >= 5


def test_every_mistake_is_made_somewhere() -> None:
    made = {case.values[1] for case in CASES}
    assert [each.what for each in BREAKAGES if each not in made] == []
