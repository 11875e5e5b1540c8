"""A new lab file passes every check, and its comments teach the whole grammar."""

from __future__ import annotations

import re
import tomllib
from typing import TYPE_CHECKING, get_args

import pytest
from pydantic import BaseModel, TypeAdapter

from workbook.authoring.sketch import EXAMPLE, check_name, sketch_lab
from workbook.draw.key import CourseKey
from workbook.draw.review import review_draws
from workbook.draw.vanishing import find_vanishing
from workbook.errors import TaskError
from workbook.labfile.course import Conventions
from workbook.labfile.instrument import known_instruments
from workbook.labfile.reader import read_lab
from workbook.labfile.schema import LabFile, StepTable
from workbook.relation.lexeme import CALLS
from workbook.solver.bench import prepare

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

TEXT = sketch_lab("new-lab")
KEY = CourseKey(bytes(32))


def tables(model: object) -> Iterator[type[BaseModel]]:
    """Give every table of the schema, however deep."""
    if isinstance(model, type) and issubclass(model, BaseModel):
        yield model
        for field in model.model_fields.values():
            yield from tables(field.annotation)
    for argument in get_args(model):
        yield from tables(argument)


def keys() -> set[str]:
    """Return every key that a lab file can hold."""
    return {
        field.alias or name
        for table in tables(LabFile)
        for name, field in table.model_fields.items()
    }


def examples() -> list[str]:
    """Return the examples of the comments, each block without its marks."""
    lines = [
        line.removeprefix("#   ") if re.match(r"#   [\[a-z]", line) else ""
        for line in TEXT.splitlines()
    ]
    blocks = re.split(r"\n(?=\[\[|\[[a-z])|\n\n+", "\n".join(lines))
    return [block for block in blocks if block.startswith("[")]


@pytest.mark.parametrize("key", sorted(keys()))
def test_every_key_of_the_schema_is_written_in_it(key: str) -> None:
    # A colleague who adds a key to the schema teaches it in sketch.toml as well.
    assert re.search(rf"(^|[\s\[{{#.]){key}(\s*=|[.\]])", TEXT, re.MULTILINE)


@pytest.mark.parametrize("name", known_instruments())
def test_every_instrument_is_named(name: str) -> None:
    assert name in TEXT


@pytest.mark.parametrize("function", sorted(CALLS))
def test_every_function_of_relations_is_named(function: str) -> None:
    assert f"{function}(" in TEXT


def test_every_kind_of_step_is_taught() -> None:
    kinds = {
        value
        for table in tables(StepTable)
        if "kind" in table.model_fields
        for value in get_args(table.model_fields["kind"].annotation)
    }
    assert {kind for kind in kinds if f"\n#   {kind} " not in TEXT} == set()


def test_the_examples_are_toml_that_the_schema_takes() -> None:
    whole = tomllib.loads(with_examples())
    steps = TypeAdapter(tuple[StepTable, ...])
    assert len(steps.validate_python(whole["prelab"])) > len(
        tomllib.loads(TEXT)["prelab"]
    )
    LabFile.model_validate(whole)


def with_examples() -> str:
    """Return the file with all its examples in force."""
    return "\n".join((TEXT, *examples()))


def test_the_file_has_examples() -> None:
    assert len(examples()) > 15


# Weighed in each case: what limits, what is in excess, and the product.
@pytest.mark.parametrize(
    "reaction",
    [
        EXAMPLE,
        "Mg + HCl -> MgCl2 + H2",
        "NaHCO3 -> Na2CO3 + H2O + CO2",
        "copper_salt=CuSO4·5H2O + zinc=Zn -> copper=Cu + ZnSO4 + H2O",
        "C57H104O6 + 3 NaOH -> 3 C18H33NaO2 + C3H8O3",
        "Ag^+ + Cl^- -> AgCl",
    ],
)
def test_a_new_lab_passes_every_check(tmp_path: Path, reaction: str) -> None:
    (tmp_path / "lab.toml").write_text(sketch_lab("x", reaction), encoding="utf-8")
    compiled = prepare(read_lab(tmp_path), Conventions()).compiled
    assert list(find_vanishing(compiled.graph)) == []
    assert review_draws(compiled, KEY, list(map(str, range(100)))).fair > 50


@pytest.mark.parametrize("name", ["Soap", "a b", "-a", "a-", "", "a/b", "x" * 61])
def test_a_name_that_no_folder_should_have_is_refused(name: str) -> None:
    with pytest.raises(TaskError, match="can't be the name of a lab"):
        check_name(name)


def test_a_species_may_not_take_a_name_of_the_file() -> None:
    with pytest.raises(TaskError, match="'dish' is what the new file calls"):
        sketch_lab("x", "dish=Mg + 2 HCl -> MgCl2 + H2")


def test_masses_that_no_one_balance_weighs_are_refused() -> None:
    with pytest.raises(TaskError, match="too far apart to be weighed"):
        sketch_lab("x", "C57H104O6 + 3 H2 -> C57H110O6")
