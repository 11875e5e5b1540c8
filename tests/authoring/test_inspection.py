"""A lab is looked at whole, in passes, and all that a pass finds is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit, make_lab
from tests.support.variant import VARIED
from workbook.authoring import inspection
from workbook.authoring.inspection import Inspection, inspect_lab
from workbook.authoring.page import print_inspection
from workbook.issuing.folder import encode_notebooks
from workbook.labfile.reader import read_lab

if TYPE_CHECKING:
    from pathlib import Path

DRAWS = 20

#: A step with nothing to work out, because one chalk gives one salt.
STEP = """[[postlab]]
kind = "chain"
of = "salt_amount"
asks = "What amount of salt can form?"
"""


def inspect_chalk(folder: Path, *edits: tuple[str, str]) -> Inspection:
    """Inspect the chalk lab with some texts replaced, its notebooks in step if any."""
    place = folder / "chalk"
    place.mkdir()
    (place / "lab.toml").write_text(edit(CHALK, (STEP, ""), *edits), encoding="utf-8")
    return inspect_lab(place, DRAWS)


def test_mistakes_of_names_and_of_dimensions_are_told_together(tmp_path: Path) -> None:
    found = inspect_chalk(
        tmp_path,
        ("chalk + 2 acid", "chalk + 3 acid"),
        ('"chalk_mass / chalk.molar_mass"', '"chalk_mass * chalk.molar_mass"'),
        ('kind = "number"\nof = "salt_yield"', 'kind = "number"\nof = "salt_yeld"'),
    )
    assert len(found.findings) == 3
    assert "'chalk + 3 acid → salt + water + gas'" in found.findings[0].says
    assert "its relation gives" in found.findings[1].says
    assert "'salt_yeld' is no quantity" in found.findings[2].says
    assert found.review is None


def test_every_finding_has_its_line(tmp_path: Path) -> None:
    found = inspect_chalk(tmp_path, ("revision = 1", "revision = 0"))
    ((told),) = found.findings
    # A comment, an empty line, [lab], title, about, revision.
    assert (told.line, told.says.partition(":")[0]) == (6, "lab.revision")


def test_notebooks_that_are_missing_are_told_and_draws_are_looked_through(
    tmp_path: Path,
) -> None:
    found = inspect_chalk(tmp_path)
    assert [told.file.rpartition("/")[2] for told in found.findings] == [
        "prelab.ipynb",
        "postlab.ipynb",
    ]
    assert found.review is not None
    assert found.review.draws == DRAWS


def test_a_lab_in_step_has_no_finding(tmp_path: Path) -> None:
    place = tmp_path / "chalk"
    inspect_chalk(tmp_path)
    for name, content in encode_notebooks(read_lab(place).public).items():
        (place / name).write_bytes(content)
    assert inspect_lab(place, DRAWS).findings == ()


def test_what_is_from_memory_is_told_beside_mistakes(tmp_path: Path) -> None:
    found = inspect_chalk(
        tmp_path,
        ('source = "invented"', 'source = "from memory"'),
        ("chalk + 2 acid", "chalk + 3 acid"),
    )
    assert any("from memory" in told.says for told in found.confirm)


def test_a_draw_that_is_never_fair_points_to_its_quantity(tmp_path: Path) -> None:
    # The yield is below 95 %, so nobody reaches 96.
    found = inspect_chalk(tmp_path, ('"60 .. 99 %"', '"96 .. 99 %"'))
    told = found.findings[0]
    assert told.says.startswith("no draw is fair; the last was refused because")
    assert "'percent_yield' is not plausible" in told.says
    lines = (tmp_path / "chalk" / "lab.toml").read_text().splitlines()
    assert lines[(told.line or 0) - 1] == "[quantities.percent_yield]"


def test_a_smiles_of_another_substance_is_found_with_its_line(tmp_path: Path) -> None:
    name = 'name = "water"\n'
    found = inspect_chalk(tmp_path, (name, f'{name}smiles = "OO"\n'))
    (told,) = found.findings
    lines = (tmp_path / "chalk" / "lab.toml").read_text().splitlines()
    assert lines[(told.line or 0) - 1] == 'smiles = "OO"'


def test_without_rdkit_one_sentence_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(inspection, "has_structures", lambda: False)
    name = 'name = "water"\n'
    found = inspect_chalk(tmp_path, (name, f'{name}smiles = "OO"\n'))
    first, second = found.notes
    assert "RDKit is not installed" in first
    assert second.startswith("Not drawn yet: scheme.svg")
    assert all("SMILES" not in told.says for told in found.findings)


def test_a_folder_without_a_lab_file_is_one_finding(tmp_path: Path) -> None:
    (told,) = inspect_lab(tmp_path, DRAWS).findings
    assert told.line is None
    assert "there is no such file" in told.says


def test_the_draws_of_each_variant_are_looked_through(tmp_path: Path) -> None:
    place = make_lab(tmp_path, edit(VARIED, (STEP, ""))).path.parent
    found = inspect_lab(place, 100)
    assert found.review is not None
    (other,) = found.others
    assert found.review.draws + other.draws == 100
    assert found.review.share + other.share == pytest.approx(1)
    assert "acid for rinsing oxalic acid" in other.name
    assert f"({other.share:.0%} of all)" in print_inspection(found)
