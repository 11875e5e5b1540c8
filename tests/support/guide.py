"""The lab that somebody has who follows the guide for authors to its end."""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, Any

import tomlkit

from tests.support.exercise import EXERCISES
from workbook.authoring.sketch import sketch_lab

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

GUIDE = (EXERCISES / "GUIDE.md").read_text("utf-8")

#: What the guide tells to take out, because the soda comes as a solution.
TAKEN_OUT = {"soda_mass", "needed_mass"}


def begin() -> dict[str, Any]:
    """Return the tables with which the guide's own command begins."""
    found = re.search(r'^workbook new (\S+) --reaction "(.+)"$', GUIDE, re.MULTILINE)
    if found is None:
        msg = "The guide has no command that begins a lab."
        raise ValueError(msg)
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


def follow_guide() -> dict[str, Any]:
    """Return the tables of the lab."""
    data = begin()
    take_out(data)
    for block in blocks():
        for table, content in block.items():
            if isinstance(content, list):
                data[table] += content
            else:
                data[table] = data.get(table, {}) | content
    return data


def write_guided_lab(folder: Path) -> Path:
    """Write the lab into a folder of its own, and return that."""
    folder.mkdir(parents=True)
    (folder / "lab.toml").write_text(tomlkit.dumps(follow_guide()), encoding="utf-8")
    return folder
