"""What the guide for authors says can be done, step by step, and gives a sound lab."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from workbook.authoring.sketch import sketch_lab
from workbook.graph.dimension import relations_measure
from workbook.labfile.rule import RULES
from workbook.labfile.schema import LabFile

if TYPE_CHECKING:
    from collections.abc import Iterator

EXERCISES = Path(__file__).parents[2] / "exercises"
GUIDE = (EXERCISES / "GUIDE.md").read_text("utf-8")

#: What the guide tells to take out, because the soda comes as a solution.
TAKEN_OUT = {"soda_mass", "needed_mass"}


def begin() -> dict[str, Any]:
    """Return the tables with which the guide's own command begins."""
    found = re.search(r'^workbook new (\S+) --reaction "(.+)"$', GUIDE, re.MULTILINE)
    assert found is not None
    return tomllib.loads(sketch_lab(found[1], found[2]))


def take_out(data: dict[str, Any]) -> None:
    """Take out what the guide names."""
    for table in ("readings", "quantities"):
        for name in TAKEN_OUT & set(data[table]):
            del data[table][name]
    for part in ("prelab", "postlab"):
        data[part] = [
            step for step in data[part] if str(step.get("of")) not in TAKEN_OUT
        ]


def blocks() -> Iterator[dict[str, Any]]:
    """Give the tables of each block of the guide."""
    for block in re.findall(r"^```toml\n(.*?)^```$", GUIDE, re.DOTALL | re.MULTILINE):
        yield tomllib.loads(block)


def follow() -> LabFile:
    """Return the lab that somebody has who follows the guide to its end."""
    data = begin()
    take_out(data)
    for block in blocks():
        for table, content in block.items():
            if isinstance(content, list):
                data[table] += content
            else:
                data[table] = data.get(table, {}) | content
    return LabFile.model_validate(data)


def test_whoever_follows_the_guide_gets_a_lab_without_a_mistake() -> None:
    file = follow()
    found = [sentence for rule in RULES for _, sentence in rule(file)]
    assert found == []
    assert list(relations_measure(file)) == []


def test_the_guide_names_what_it_tells_to_take_out() -> None:
    assert [name for name in TAKEN_OUT if name not in GUIDE] == []
    assert len(list(blocks())) == 4


def test_the_guide_makes_a_lab_that_no_exercise_is() -> None:
    folders = {path.parent.name for path in EXERCISES.glob("*/lab.toml")}
    assert folders
    assert "precipitated-chalk" not in folders
