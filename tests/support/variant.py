"""The chalk lab, rinsed with acetic acid by some students and with oxalic by others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.lab import CHALK, make_lab
from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.solver.source import Source

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case

_ADDED = """

[quantities.rinse_mass]
unit = "g"
of = "vinegar"
is = "planned_amount * ratio(vinegar, chalk, rinse) * vinegar.molar_mass"

[[postlab]]
kind = "number"
of = "rinse_mass"
asks = "What mass of acid rinses off as much chalk as you planned?"

[variants]
name = "acid for rinsing"
usual = "acetic acid"

[variants.instead.oxalic]
says = "oxalic acid"

[variants.instead.oxalic.reactions.rinse]
equation = "chalk + vinegar -> acetate + water + gas"

[variants.instead.oxalic.species.vinegar]
name = "oxalic acid"
formula = "H2C2O4"

[variants.instead.oxalic.species.acetate]
name = "calcium oxalate"
formula = "CaC2O4"
"""

VARIED = CHALK + _ADDED

KEY = CourseKey(bytes(32))

STUDENTS = tuple(f"s{number}" for number in range(40))


def make_varied_source(folder: Path, text: str = VARIED) -> Source:
    """Return a source of cases of the lab."""
    lab = make_lab(folder, text)
    return Source("c", {lab.public.name: lab}, KEY, Conventions())


def say_variant(case: Case) -> str:
    """Return the words for what a student has."""
    variant = case.graph.lab.public.variant
    return variant.says if variant is not None else ""
