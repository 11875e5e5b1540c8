"""A lab file that has passed its rules, split into its public and its key half."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from workbook.labfile.chain import chain_starts
from workbook.labfile.field import DrawRange
from workbook.labfile.form import make_form
from workbook.labfile.half import (
    USUAL,
    Ask,
    KeyHalf,
    Lab,
    Label,
    Pad,
    PublicHalf,
    StepKind,
    Variant,
)
from workbook.labfile.instrument import find_instrument
from workbook.labfile.kind import (
    MatchingTable,
    MechanismTable,
    OrderTable,
    PredictionTable,
    ReagentsTable,
    TextTable,
)
from workbook.labfile.reaction import balanced_equation, reactions_of
from workbook.labfile.reagent import asked_cells
from workbook.labfile.schema import (
    AlgebraTable,
    ChoiceTable,
    LimitingTable,
    ReadingTable,
)
from workbook.labfile.step import step_id
from workbook.labfile.table import Named
from workbook.labfile.variant import list_variants, vary, vary_lines
from workbook.matter.equation import read_equation
from workbook.measure.units import read_unit

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.labfile.position import Located
    from workbook.labfile.schema import (
        GivenTable,
        Hidden,
        LabFile,
        NamedTable,
        QuantityTable,
        Reading,
        StepTable,
    )
    from workbook.matter.equation import Equation
    from workbook.measure.units import Unit
    from workbook.measure.written import Written

#: Per cent of the whole [%].
_WHOLE = 100

#: Steps that ask for an order.
_ORDERED = (MechanismTable, OrderTable)


def split(file: LabFile, path: Path, located: Located) -> Lab:
    """
    Return the two halves of a lab file.

    Parameters
    ----------
    file : LabFile
        The file, which has passed every rule.
    path : Path
        Where it lies; its folder gives the lab its name.
    located : Located
        Its text by line.

    Returns
    -------
    Lab
        Both halves, with the file for later findings, and the lab's other variants.
    """
    others = {
        key: _split(vary(file, key), path, vary_lines(located, key), key)
        for key in list_variants(file)[1:]
    }
    lab = _split(file, path, located, USUAL)
    public = replace(
        lab.public, others={key: each.public for key, each in others.items()}
    )
    return replace(lab, public=public, others=others)


def _split(file: LabFile, path: Path, located: Located, variant: str) -> Lab:
    public = _public_half(file, path.resolve().parent.name)
    return Lab(
        public=replace(public, variant=_variant(file, variant)),
        key=_key_half(file),
        path=path,
        located=located,
    )


def _variant(file: LabFile, variant: str) -> Variant | None:
    if (table := file.variants) is None:
        return None
    says = table.instead[variant].says if variant else table.usual
    return Variant(table.name, says)


def _public_half(file: LabFile, name: str) -> PublicHalf:
    return PublicHalf(
        name=name,
        title=file.lab.title,
        about=file.lab.about,
        revision=file.lab.revision,
        cautions=file.lab.cautions,
        equations=_equations(file),
        species=file.species,
        labels=_labels(file),
        instruments={
            key: find_instrument(reading.instrument)
            for key, reading in file.readings.items()
        },
        windows=_windows(file),
        givens=tuple(file.givens),
        pads={
            key: Pad(row.start, tuple(row.letters.items()))
            for key, row in file.molar_mass.items()
        },
        prelab=tuple(_ask_before(file, step) for step in file.prelab),
        postlab=tuple(_ask(file, step) for step in file.postlab),
    )


def _equations(file: LabFile) -> dict[str, Equation]:
    return {
        name: balanced_equation(file, read_equation(reaction.equation))
        for name, reaction in reactions_of(file).items()
    }


def _windows(file: LabFile) -> dict[str, DrawRange]:
    rows = file.readings.items()
    return {name: row.window for name, row in rows if row.own and row.window}


def _units(file: LabFile) -> dict[str, Unit]:
    units: dict[str, Unit] = {}
    for name, reading in file.readings.items():
        units[name] = find_instrument(reading.instrument).unit
    units |= {name: row.span.unit for name, row in file.givens.items()}
    units |= {name: row.draw.unit for name, row in file.hidden.items()}
    units |= {name: row.unit for name, row in file.quantities.items()}
    return units


def _labels(file: LabFile) -> dict[str, Label]:
    """Label what is shown or asked: an unasked quantity would tell of the relations."""
    units = _units(file)
    shown: dict[str, Reading | GivenTable] = {**file.readings, **file.givens}
    labels = {n: Label(row.name, units[n], row.of) for n, row in shown.items()}
    asked = {step_id(step) for step in (*file.prelab, *file.postlab)}
    asked |= {
        name for table in _tables(file) for name in asked_cells(file, table).values()
    }
    for name, row in file.quantities.items():
        if name in asked:
            text = row.name or name.replace("_", " ")
            labels[name] = Label(text, row.unit, row.of)
    for key in file.molar_mass:
        text = f"molar mass of {file.species[key].name}"
        labels[f"{key}.molar_mass"] = Label(text, read_unit("g/mol"), key)
    return labels


def _ask_before(file: LabFile, step: StepTable) -> Ask:
    return replace(_ask(file, step), is_gate=step.gate)


def _tables(file: LabFile) -> list[ReagentsTable]:
    steps = (*file.prelab, *file.postlab)
    return [step for step in steps if isinstance(step, ReagentsTable)]


def _ask(file: LabFile, step: StepTable) -> Ask:
    known, asks = step_id(step), step.asks
    if isinstance(step, Named):
        return _named(file, step)
    if isinstance(step, AlgebraTable):
        return Ask(known, "algebra", asks, of=known)
    kind: StepKind = step.kind
    if isinstance(step, ReadingTable) and file.readings[step.of].own:
        kind = "own"
    start = None
    if kind == "chain":
        (start,) = chain_starts(file, file.quantities[step.of].relation)
    return Ask(known, kind, asks, of=step.of, start=start)


def _named(file: LabFile, step: NamedTable) -> Ask:
    kind: StepKind = "choice" if step.kind == "limiting" else step.kind
    return Ask(
        step.name,
        kind,
        step.asks,
        options=_options(file, step),
        several=isinstance(step, ChoiceTable | MatchingTable) and step.several,
        form=make_form(file, step),
    )


def _options(file: LabFile, step: NamedTable) -> tuple[tuple[str, str], ...]:
    options: dict[str, str] = {}
    match step:
        case LimitingTable(of=amounts):
            options = {key: file.species[key].name for key in amounts}
        case ChoiceTable() | MatchingTable() | PredictionTable():
            options = step.options
        # Sorted, because the author's order may well be a right one.
        case OrderTable(cards=cards):
            options = dict(sorted(cards.items()))
        case MechanismTable(cards=cards):
            options = {key: card.text for key, card in sorted(cards.items())}
    return tuple(options.items())


def _key_half(file: LabFile) -> KeyHalf:
    steps = (*file.prelab, *file.postlab)
    rows: dict[str, Reading | QuantityTable] = {**file.readings, **file.quantities}
    return KeyHalf(
        relations={
            name: row.relation for name, row in rows.items() if row.relation is not None
        },
        units=_units(file),
        draws=_draws(file),
        hidden=frozenset(file.hidden),
        plausible={
            name: row.plausible
            for name, row in file.quantities.items()
            if row.plausible is not None
        },
        pieces=file.molar_mass,
        right={s.name: s.right for s in steps if isinstance(s, ChoiceTable)},
        limiting=_limiting(file),
        closest=_closest(steps),
        widen=_widen(steps),
        slips=file.slips,
        belongs={s.name: s.belongs for s in steps if isinstance(s, MatchingTable)},
        before={s.name: s.before for s in steps if isinstance(s, _ORDERED)},
        decoys={s.name: s.decoys for s in steps if isinstance(s, MechanismTable)},
        look_for={s.name: s.look_for for s in steps if isinstance(s, TextTable)},
    )


def _limiting(file: LabFile) -> dict[str, dict[str, str]]:
    steps = (*file.prelab, *file.postlab)
    asked = {s.name: s.of for s in steps if isinstance(s, LimitingTable)}
    return asked | {t.name: t.amounts for t in _tables(file) if t.limiting is not None}


def _draws(file: LabFile) -> dict[str, DrawRange]:
    rows: dict[str, Reading | Hidden] = {**file.readings, **file.hidden}
    draws = {name: row.draw for name, row in rows.items() if row.draw is not None}
    draws |= {name: row.span for name, row in file.givens.items()}
    for name, reading in file.readings.items():
        instrument = find_instrument(reading.instrument)
        if instrument.is_fixed:
            volume = instrument.capacity
            draws[name] = DrawRange(volume, volume, instrument.unit, instrument.place)
    return draws | _windows(file)


def _closest(steps: tuple[StepTable, ...]) -> dict[str, float]:
    return {
        step.name: float(step.closest.value) / _WHOLE
        for step in steps
        if isinstance(step, LimitingTable | ReagentsTable) and step.closest is not None
    }


def _widen(steps: tuple[StepTable, ...]) -> dict[str, Written]:
    found: dict[str, Written] = {}
    for step in steps:
        if not isinstance(step, Named) and step.widen is not None:
            found[step_id(step)] = step.widen
    return found
