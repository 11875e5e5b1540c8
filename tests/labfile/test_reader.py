"""Every mistake in a lab file is a finding: where, what stands there, what is meant."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, find_mistakes, make_lab
from workbook.errors import AuthorError
from workbook.labfile.reader import read_lab

if TYPE_CHECKING:
    from workbook.labfile.half import Lab

DATA = Path(__file__).parents[1] / "data" / "broken_labs.toml"
BROKEN = tomllib.loads(DATA.read_text("utf-8"))["broken"]


@pytest.mark.parametrize("row", BROKEN, ids=lambda row: row["what"])
def test_a_mistake_is_found_where_it_stands(
    tmp_path: Path, row: dict[str, str]
) -> None:
    found = find_mistakes(tmp_path, (row["old"], row["new"]))
    told = [m for m in found if m.at == row["at"] and row["says"] in m.sentence]
    assert told, found


@pytest.mark.parametrize("row", BROKEN, ids=lambda row: row["what"])
def test_a_mistake_is_told_once(tmp_path: Path, row: dict[str, str]) -> None:
    found = find_mistakes(tmp_path, (row["old"], row["new"]))
    assert len(found) == 1 + int(row.get("others", 0)), found


def test_what_is_no_toml_is_told_with_its_line(tmp_path: Path) -> None:
    (found,) = find_mistakes(tmp_path, ("revision = 1", "revision : 1"))
    assert found.at == "revision : 1"
    assert found.sentence.startswith("'revision : 1' can't be read as TOML")


def test_a_key_that_is_written_twice_is_told_with_both_lines(tmp_path: Path) -> None:
    (found,) = find_mistakes(tmp_path, ("revision = 1", 'revision = 1\ntitle = "x"'))
    # The title stands in line 4 of the chalk lab.
    assert found.at == 'title = "x"'
    assert "lab.title stands here a second time; it was first written in line 4" in (
        found.sentence
    )


def test_all_findings_come_at_once_in_the_order_of_lines(tmp_path: Path) -> None:
    found = find_mistakes(
        tmp_path,
        ("revision = 1", "revision = 0"),
        ('"2.71 g/mL"', '"2.71"'),
        ("30.0 .. 45.0 mL", "45.0 .. 30.0 mL"),
        ('kind = "limiting"', 'kind = "limit"'),
    )
    assert [mistake.sentence.split(":")[0] for mistake in found] == [
        "lab.revision",
        "species.chalk.density.value",
        "readings.acid_volume.draw",
        "postlab.5",
    ]


def test_findings_of_rules_come_at_once_in_the_order_of_lines(tmp_path: Path) -> None:
    found = find_mistakes(
        tmp_path,
        ("chalk + 2 acid", "chalk + 3 acid"),
        ('"dish_and_salt - dish"', '"dish_and_salt - dsh"'),
        ('kind = "number"\nof = "salt_yield"', 'kind = "number"\nof = "salt_yeld"'),
    )
    assert [mistake.at for mistake in found] == [
        'equation = "chalk + 3 acid -> salt + water + gas"',
        'is = "dish_and_salt - dsh"',
        'of = "salt_yeld"',
    ]


def test_an_unknown_key_hides_no_other_finding_of_its_table(tmp_path: Path) -> None:
    found = find_mistakes(
        tmp_path, ("title = ", "colour = "), ("revision = 1", "revision = 0")
    )
    sentences = [mistake.sentence for mistake in found]
    assert len(sentences) == 3
    assert sentences[0].startswith("lab needs the key 'title'")
    assert sentences[1].startswith("'colour' is not a key")
    assert sentences[2].startswith("lab.revision: 0 stands here")


def test_a_finding_starts_with_the_file_and_the_line(tmp_path: Path) -> None:
    with pytest.raises(AuthorError) as caught:
        make_lab(tmp_path, CHALK.replace("revision = 1", "revision = 0"))
    # Counted by hand: a comment, an empty line, [lab], title, about, revision.
    place = tmp_path / "chalk-in-acid" / "lab.toml"
    assert str(caught.value).startswith(f"{place}:6: ")


def test_a_folder_without_a_lab_file_is_told_with_its_path(tmp_path: Path) -> None:
    with pytest.raises(AuthorError, match=r"lab\.toml: there is no such file"):
        read_lab(tmp_path)


def test_a_lab_is_read_from_its_folder_and_from_its_file(tmp_path: Path) -> None:
    lab = make_lab(tmp_path)
    assert read_lab(lab.path) == lab
    assert lab.public.name == "chalk-in-acid"


def test_the_lab_that_ships_has_no_mistake(lab: Lab) -> None:
    assert lab.public.title == "Hard soap from olive oil"
