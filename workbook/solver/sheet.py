"""
From a lab to the sheet that a student gets.

The writer takes the public half and what is shown, and never the key: a relation
or a hidden value has no way into a sheet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from workbook.labfile.form import TableForm
from workbook.labfile.offer import MOLAR_MASS_PLACE, offers
from workbook.labfile.substance import describe_reagents, write_equations
from workbook.matter.formula import molar_mass, read_formula
from workbook.measure.rounding import Ties, round_place, write
from workbook.measure.units import ONE
from workbook.picture.words import describe
from workbook.solver.form import write_form
from workbook.solver.table import write_table
from workbook.wire.sheet import (
    SHEET_VERSION,
    VARIANT,
    AlgebraStep,
    ChainStep,
    Given,
    Letter,
    NumberStep,
    OwnStep,
    ReadingStep,
    Sheet,
    SheetId,
    Step,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from workbook.labfile.half import Ask, PublicHalf
    from workbook.matter.elements import AtomicWeights
    from workbook.solver.picture import Sight


#: What an algebra pad says of the formulas that it understands.
_FORMULAS = (
    "a formula stands for the molar mass of its atoms, with or without M(...): "
    "M(CH3), CH3"
)


@dataclass(frozen=True, slots=True)
class Shown:
    """What one student is shown, as it is printed: no numbers to reckon with."""

    #: What each instrument shows, by reading.
    sights: Mapping[str, Sight]
    #: Each given as printed, unit included.
    givens: Mapping[str, str]
    #: How close an answer must come, in words, by step.
    allowances: Mapping[str, str]
    #: The conventions in force, in words.
    rules: tuple[str, ...]


def write_sheet(
    public: PublicHalf, sheet: SheetId, shown: Shown, weights: AtomicWeights
) -> Sheet:
    """
    Return a student's sheet.

    Parameters
    ----------
    public : PublicHalf
        The lab, as a student may know it.
    sheet : SheetId
        Whose it is.
    shown : Shown
        What this student is shown.
    weights : AtomicWeights
        For the molar masses that are printed.

    Returns
    -------
    Sheet
        With every step of both parts.
    """

    def step(ask: Ask) -> Step:
        if isinstance(ask.form, TableForm):
            return write_table(public, ask, ask.form, shown.givens)
        if ask.of is None:
            return write_form(ask, sheet)
        return _step(public, ask, shown, weights)

    return Sheet(
        version=SHEET_VERSION,
        id=sheet,
        title=public.title,
        about=public.about,
        equations=write_equations(public),
        reagents=describe_reagents(public),
        cautions=public.cautions,
        givens=(*_say_variant(public), *_list_givens(public, shown)),
        rules=shown.rules,
        prelab=tuple(map(step, public.prelab)),
        postlab=tuple(map(step, public.postlab)),
    )


def _say_variant(public: PublicHalf) -> Iterator[Given]:
    if (variant := public.variant) is not None:
        yield Given(VARIANT, variant.name, variant.says)


def _list_givens(public: PublicHalf, shown: Shown) -> Iterator[Given]:
    for name in public.givens:
        yield Given(name, public.labels[name].text, shown.givens[name])


def _step(public: PublicHalf, ask: Ask, shown: Shown, weights: AtomicWeights) -> Step:
    allowance = shown.allowances.get(ask.id, "")
    match ask.kind:
        case "reading":
            step: Step = _reading(public, ask, shown)
        case "own":
            step = _own(public, ask, allowance)
        case "chain":
            step = _chain(public, ask, allowance, weights)
        case "algebra":
            step = _algebra(public, ask, allowance, weights)
        case _:
            own = public.labels[ask.id].unit
            unit = "" if own == ONE else own.symbol
            step = NumberStep(id=ask.id, asks=ask.asks, allowance=allowance, unit=unit)
    return step


def _reading(public: PublicHalf, ask: Ask, shown: Shown) -> ReadingStep:
    return ReadingStep(
        id=ask.id,
        asks=ask.asks,
        allowance=shown.allowances[ask.id],
        unit=public.labels[ask.id].unit.symbol,
        instrument=describe(public.instruments[ask.id]),
        seen=shown.sights[ask.id].words,
        picture=shown.sights[ask.id].picture,
    )


def _own(public: PublicHalf, ask: Ask, allowance: str) -> OwnStep:
    return OwnStep(
        id=ask.id,
        asks=ask.asks,
        allowance=allowance,
        unit=public.labels[ask.id].unit.symbol,
        instrument=describe(public.instruments[ask.id]),
    )


def _chain(
    public: PublicHalf, ask: Ask, allowance: str, weights: AtomicWeights
) -> ChainStep:
    start, end = public.labels[ask.start or ""], public.labels[ask.of or ask.id]
    return ChainStep(
        id=ask.id,
        asks=ask.asks,
        allowance=allowance,
        unit=end.unit.symbol,
        start=start.text,
        start_unit=start.unit.symbol,
        start_of=_substance(public, start.of),
        end_of=_substance(public, end.of),
        offers=offers(public, ask, weights),
    )


def _substance(public: PublicHalf, of: str | None) -> str:
    key, _, solution = (of or "").partition(".")
    if key not in public.species:
        return ""
    species = public.species[key]
    return species.solution.name if solution and species.solution else species.name


def _algebra(
    public: PublicHalf, ask: Ask, allowance: str, weights: AtomicWeights
) -> AlgebraStep:
    wanted = ask.id.removesuffix(".molar_mass")
    pad = public.pads[wanted]
    start = public.species[pad.start]
    mass = molar_mass(read_formula(start.formula or ""), weights)
    printed = write(round_place(mass, MOLAR_MASS_PLACE, Ties.EVEN))
    letters = (
        Letter(pad.start, f"molar mass of {start.name}"),
        *(Letter(symbol, means) for symbol, means in pad.letters),
        Letter(wanted, f"molar mass of {public.species[wanted].name}, which is wanted"),
    )
    return AlgebraStep(
        id=ask.id,
        asks=ask.asks,
        allowance=allowance,
        unit=public.labels[ask.id].unit.symbol,
        known=(
            f"{pad.start} = {printed} g/mol, the molar mass of {start.name}",
            "the equation of the reaction",
            _FORMULAS,
        ),
        letters=letters,
        wanted=wanted,
    )
