"""Lab files made from reactions in print; sources stand in the data file."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any, TypeAlias

from workbook.matter.equation import Equation, read_equation

Row: TypeAlias = dict[str, Any]

_DATA = Path(__file__).parents[1] / "data" / "published_yields.toml"

#: Rows whose reagents are all given by mass, so that a lab can be written from them.
ROWS: list[Row] = [
    row
    for row in tomllib.loads(
        (Path(__file__).parents[1] / "data" / "published_yields.toml").read_text(
            "utf-8"
        )
    )["reaction"]
    if "start" in row and "start_mol" not in row
]

_HEAD = """\
[lab]
title = "A reaction in print"
about = "From a textbook; the data file names it."
revision = 1
cautions = []

[reaction]
equation = "{equation}"
"""

_SPECIES = '[species.{name}]\nname = "{formula}"\nformula = "{formula}"\n'

_GIVEN = '[givens.mass_{name}]\nname = "of {name}"\ndraw = "0 .. 1e6 g"\n'

_QUANTITY = '[quantities.{name}]\nunit = "{unit}"\nis = "{relation}"\n'

_STEP = '[[postlab]]\nkind = "number"\nof = "{name}"\nasks = "How much?"\n'


def names_of(equation: Equation) -> dict[str, str]:
    """Return a name for each formula of an equation."""
    return {formula: f"s{index}" for index, formula in enumerate(equation.species)}


def write_lab(row: Row) -> str:
    """Return a lab file that asks for all that a reaction comes to, and leaves."""
    equation = read_equation(row["equation"])
    names = names_of(equation)
    quantities = dict(_quantities(row, names))
    pieces = [_HEAD.format(equation=_write(equation, names))]
    pieces += [_SPECIES.format(name=n, formula=f) for f, n in names.items()]
    weighed = (*row["start"], *row.get("obtained_g", {}))
    pieces += [_GIVEN.format(name=names[formula]) for formula in weighed]
    pieces += [
        _QUANTITY.format(name=name, unit=unit, relation=relation)
        for name, (unit, relation) in quantities.items()
    ]
    pieces += [_STEP.format(name=name) for name in quantities]
    return "\n".join(pieces)


def _write(equation: Equation, names: dict[str, str]) -> str:
    sides = (
        " + ".join(f"{term.coefficient or ''} {names[term.species]}" for term in side)
        for side in (equation.left, equation.right)
    )
    return " -> ".join(sides)


def _quantities(row: Row, names: dict[str, str]) -> list[tuple[str, tuple[str, str]]]:
    found = []
    for formula in row["start"]:
        name = names[formula]
        relation = f"mass_{name} / {name}.molar_mass"
        found.append((f"amount_{name}", ("mol", relation)))
    for name in names.values():
        made = [f"amount_{names[f]} * ratio({name}, {names[f]})" for f in row["start"]]
        least = f"min({', '.join(made)})" if len(made) > 1 else made[0]
        found.append((f"follows_{name}", ("g", f"{least} * {name}.molar_mass")))
    for formula in row["start"]:
        name = names[formula]
        found.append((f"left_{name}", ("g", f"mass_{name} - follows_{name}")))
    for formula in row.get("obtained_g", {}):
        name = names[formula]
        found.append(("percent", ("%", f"100 * mass_{name} / follows_{name}")))
    return found
