"""A small course on the olive-oil lab, and answers to it worked out by hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Filling,
    Match,
    Matched,
    Ordered,
    Placed,
    Typed,
)
from workbook.wire.handin import Attempt, HandIn, compose_hand_in
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from workbook.judge.case import Case

LAB = "olive-oil-soap"
LAB_FOLDER = Path(__file__).parents[2] / "exercises" / LAB
COURSE = "salt-1"
STUDENTS = ("a1", "b2", "c3")
NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)

#: Sums of CIAAW 2021 abridged atomic weights [g/mol]: C 12.011, H 1.008, O 15.999,
#: Na 22.990. C57H104O6, NaOH, C18H33NaO2, C6H8O7·H2O.
OIL, LYE, SOAP, ACID = 885.453, 39.997, 304.449, 210.138

#: What stands in the lab file: g/mL, g/mL, and grams in a gram.
OIL_DENSITY, LYE_DENSITY, LYE_SHARE = 0.911, 1.219, 0.200

_COURSE = """\
[course]
name   = "{name}"
title  = "Salt & soap"
labs   = ["{lab}"]
roster = "roster.csv"
"""

_ROSTER = """\
student,name,section
a1,Ada <Moss>,morning
b2,"=cmd|' /C calc'!A0",evening
c3,Cleo Fenn,
"""

#: What is the same for every student: tables and orders, and any prediction.
CHOSEN: dict[str, Answer] = {
    "other_statements": Matched((Match("oil", ()), Match("acid", ("H319",)))),
    "protection": Matched(
        (
            Match("splash", ("goggles",)),
            Match("drops", ("gloves",)),
            Match("flask", ("tongs",)),
        )
    ),
    "streams": Matched(
        (
            Match("oil", ("organic",)),
            Match("brine", ("aqueous",)),
            Match("paper", ("solid",)),
        )
    ),
    "pressing": Ordered(
        (
            "paper",
            "water_on",
            "pour",
            "rinse",
            "press",
            "hose_off",
            "dish",
            "water_off",
        )
    ),
    "saponification": Ordered(("lye_adds", "alcohol_leaves", "proton_moves")),
    "salting_out": Chosen(("clear",)),
}


def make_course(folder: Path, *, has_key: bool = True) -> Path:
    """Write a course of three students, and return its file."""
    path = folder / "course.toml"
    lab = LAB_FOLDER.as_posix()
    path.write_text(_COURSE.format(name=COURSE, lab=lab), encoding="utf-8")
    (folder / "roster.csv").write_text(_ROSTER, encoding="utf-8")
    if has_key:
        (folder / KEY_FILE).write_text("5a" * 32 + "\n", encoding="ascii")
    return path


def name_sheet(student: str) -> SheetId:
    """Return the id of a student's sheet."""
    return SheetId(COURSE, LAB, 1, student)


def answer_rightly(case: Case) -> dict[str, Answer]:
    """Return the right answer to every step, from the readings alone."""
    read = case.values
    planned, oil_ml, lye_ml = (
        read["planned_oil"],
        read["oil_volume"],
        read["lye_volume"],
    )
    soap_g = read["dish_and_soap"] - read["dish"]
    oil_mol = oil_ml * OIL_DENSITY / OIL
    lye_mol = lye_ml * LYE_DENSITY * LYE_SHARE / LYE
    left_mol = lye_mol - 3 * oil_mol
    yield_g = 3 * oil_mol * SOAP
    need_mol = 3 * planned / OIL
    trial_oil_mol = read["trial_oil"] / OIL
    trial_lye_mol = read["trial_lye"] * LYE_DENSITY * LYE_SHARE / LYE
    return {
        "lye_statements": Chosen(("H290", "H314")),
        "splash": Chosen(("rinse",)),
        "brine_waste": Chosen(("neutral",)),
        "planned_oil_volume": _chain("1/oil.density", planned / OIL_DENSITY, "mL"),
        "planned_oil_amount": _chain("1/oil.molar_mass", planned / OIL, "mol"),
        "lye_needed": _chain("ratio(lye, oil)", need_mol, "mol"),
        "lye_needed_volume": _typed(need_mol * LYE / LYE_SHARE / LYE_DENSITY, "mL"),
        "trial": Filled(
            (
                Filling("oil", "amount", _number(trial_oil_mol, "mol")),
                Filling("lye", "amount", _number(trial_lye_mol, "mol")),
                Filling("lye", "equivalents", f"{trial_lye_mol / trial_oil_mol:#.3g}"),
            ),
            "lye" if trial_lye_mol < 3 * trial_oil_mol else "oil",
        ),
        **CHOSEN,
        "oil_volume": Typed(f"{oil_ml:.1f} mL"),
        "lye_volume": Typed(f"{lye_ml:.1f} mL"),
        "dish": Typed(f"{read['dish']:.2f} g"),
        "dish_and_soap": Typed(f"{read['dish_and_soap']:.2f} g"),
        "oil_mass": _chain("oil.density", oil_ml * OIL_DENSITY, "g"),
        "oil_amount": _chain("1/oil.molar_mass", oil_mol, "mol"),
        "lye_amount": _typed(lye_mol, "mol"),
        "limiting": Chosen(("oil",)),
        "soap.molar_mass": Derived(
            ("oil = C3H5 + 3x", "x = (oil - C3H5)/3", "soap = x + Na"), "304.45 g/mol"
        ),
        "soap_amount": _chain("ratio(soap, oil)", 3 * oil_mol, "mol"),
        "theoretical_yield": _typed(yield_g, "g"),
        "soap_mass": Typed(f"{soap_g:.2f} g"),
        "percent_yield": _typed(100 * soap_g / yield_g, "%"),
        "lye_left": _typed(left_mol, "mol"),
        "acid_mass": _typed(left_mol / 3 * ACID, "g"),
        "observations": Typed("The layers vanished after ten minutes."),
        "discussion": Typed("Soap stayed in the brine, which lowers the yield."),
    }


def _number(value: float, unit: str) -> str:
    """Write three figures, as many as the volumes have."""
    return f"{value:#.3g} {unit}"


def _typed(value: float, unit: str) -> Typed:
    return Typed(_number(value, unit))


def _chain(factor: str, value: float, unit: str) -> Built:
    placed = Placed(factor.removeprefix("1/"), turned=factor.startswith("1/"))
    return Built((placed,), _number(value, unit))


def make_attempts(answers: Iterable[tuple[str, Answer]]) -> tuple[Attempt, ...]:
    """Return attempts a minute apart."""
    return tuple(
        Attempt(f"try-{number}", step, answer, NOON + timedelta(minutes=number))
        for number, (step, answer) in enumerate(answers)
    )


def make_hand_in(
    source: CourseSource,
    student: str,
    answers: Mapping[str, Answer],
    at: datetime = NOON + timedelta(hours=3),
) -> HandIn:
    """Return a sealed hand-in."""
    sheet, attempts = name_sheet(student), make_attempts(answers.items())
    return compose_hand_in(sheet, attempts, at, source.seal)


def write_hand_in(hand_in: HandIn, path: Path) -> Path:
    """Write a hand-in to a file, and return its place."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(msgspec.json.format(msgspec.json.encode(hand_in), indent=1))
    return path
