"""
What a lab file says, as frozen data: one class a table, one field a key.

The meaning of a key stands above its field. The template of `workbook new`
teaches the same grammar to an author.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, model_validator

from workbook.errors import nearest
from workbook.labfile.field import (
    Amount,
    Code,
    DrawRange,
    Figure,
    Identifier,
    Range,
    RelationText,
    StudentRelation,
    Substance,
    Text,
    UnitText,
)
from workbook.labfile.instrument import is_fixed, known_instruments
from workbook.labfile.kind import (
    MatchingTable,
    MechanismTable,
    OrderTable,
    PredictionTable,
    RangeTable,
    ReagentsTable,
    TextTable,
)
from workbook.labfile.slip import SlipsTable
from workbook.labfile.table import Asking, Named, Table


class LabTable(Table):
    """``[lab]``: what the lab is."""

    title: Text
    #: What is done, in a few sentences; students read it.
    about: Text
    #: Raised whenever a number or a relation changes: values are drawn anew.
    revision: Annotated[int, Field(ge=1, strict=True)]
    #: The usual cautions, a paragraph each; the site's own rules come after them.
    cautions: tuple[Text, ...]


class Reaction(Table):
    """``[reaction]`` and ``[reactions.NAME]``: an equation in species names."""

    equation: Text
    #: The species whose yield is asked.
    product: Identifier | None = None


class Property(Table):
    """A physical constant: it never stands without its source."""

    value: Amount
    #: The temperature or state at which it holds.
    at: Text | None = None
    source: Text


class SolutionTable(Table):
    """What stands on the bottle of a solution: one way of giving its strength."""

    #: In words: "20 % sodium hydroxide solution".
    name: Text
    molarity: Amount | None = None
    mass_fraction: Amount | None = None
    mass_per_volume: Amount | None = None
    density: Amount | None = None
    source: Text

    @model_validator(mode="after")
    def _say_one_strength(self) -> SolutionTable:
        ways = [self.molarity, self.mass_fraction, self.mass_per_volume]
        if sum(way is not None for way in ways) != 1:
            msg = (
                "a solution gives exactly one of molarity, mass_fraction and "
                "mass_per_volume; keep the one that stands on the bottle."
            )
            raise ValueError(msg)
        if self.mass_fraction is not None and self.density is None:
            msg = "a mass_fraction needs the density of the solution beside it."
            raise ValueError(msg)
        return self


class Species(Table):
    """``[species.NAME]``: a substance."""

    name: Text
    formula: Text | None = None
    #: The structure as SMILES, for a drawing and for checks.
    smiles: Text | None = None
    density: Property | None = None
    #: Of a gas: the volume of one mole.
    molar_volume: Property | None = None
    solution: SolutionTable | None = None
    #: GHS hazard statements: "H314".
    hazards: tuple[Code, ...] = ()
    #: Where the codes were read.
    hazards_source: Text | None = None
    #: The waste stream, in words.
    waste: Text | None = None

    @model_validator(mode="after")
    def _source_the_hazards(self) -> Species:
        if self.hazards and self.hazards_source is None:
            msg = "hazards need a hazards_source: the sheet that the codes come from."
            raise ValueError(msg)
        return self


class Reading(Table):
    """``[readings.NAME]``: what the student takes off an instrument."""

    #: What is read, in words: "volume of olive oil".
    name: Text
    #: A name of the instrument table: "balance, 0.01 g". One that has a single
    #: volume, "volumetric pipette, 25 mL", needs neither draw nor is.
    instrument: Text
    #: What is measured: a species, or its solution as "lye.solution".
    of: Substance | None = None
    draw: Range | None = None
    relation: Annotated[RelationText | None, Field(alias="is")] = None
    #: True for what students read at their own bench: it is typed, and not shown.
    own: Annotated[bool, Field(strict=True)] = False
    #: Where an own reading can plausibly lie: "30.00 .. 60.00 g".
    window: Range | None = None

    @model_validator(mode="after")
    def _come_from_one_place(self) -> Reading:
        # Of an instrument that is unknown it can't be said what it needs.
        if self.own or self.instrument not in known_instruments():
            return self
        written = sum(each is not None for each in (self.draw, self.relation))
        if is_fixed(self.instrument):
            if written:
                msg = f"{self.instrument!r} has one volume; leave draw and is out."
                raise ValueError(msg)
        elif written != 1:
            msg = 'a reading has either draw = "low .. high unit" or is = "relation".'
            raise ValueError(msg)
        return self


class GivenTable(Table):
    """``[givens.NAME]``: a number that is printed on the sheet."""

    name: Text
    of: Substance | None = None
    draw: Range | None = None
    #: The same for every student, as a constant of equilibrium is; with its source.
    value: Figure | None = None
    source: Text | None = None

    @model_validator(mode="after")
    def _come_from_one_place(self) -> GivenTable:
        if (self.draw is None) == (self.value is None):
            msg = (
                'a given has either draw = "low .. high unit" or value = "number unit".'
            )
            raise ValueError(msg)
        if (self.value is None) != (self.source is None):
            msg = "the value of a given stands with its source, and a draw without."
            raise ValueError(msg)
        return self

    @property
    def span(self) -> DrawRange:
        """From what to what it is drawn; to itself where it has one value."""
        found = self.draw or self.value
        if found is None:
            msg = f"{self.name!r} has no value."
            raise ValueError(msg)
        return found


class Hidden(Table):
    """``[hidden.NAME]``: a number that never leaves the solver."""

    draw: Range


class QuantityTable(Table):
    """``[quantities] NAME = {...}``: what follows from other quantities."""

    unit: UnitText
    relation: Annotated[RelationText, Field(alias="is")]
    #: In words; the key with blanks for underscores where it is left out.
    name: Text | None = None
    of: Substance | None = None
    #: Values outside are refused when values are drawn: "60 .. 95 %".
    plausible: Range | None = None


class MolarMass(Table):
    """``[molar_mass.SPECIES]``: a molar mass derived by algebra from another's."""

    #: The species whose molar mass is known.
    start: Annotated[Identifier, Field(alias="from")]
    #: What each of the two is made of: formulas, and letters for what is unknown.
    pieces: dict[Identifier, StudentRelation]
    #: What each letter stands for, in words.
    letters: dict[Identifier, Text]


class _NumericTable(Asking):
    #: Widens the derived tolerance: "0.5 %" of the value.
    widen: Amount | None = None


class ReadingTable(_NumericTable):
    """``kind = "reading"``."""

    kind: Literal["reading"]
    of: Identifier


class NumberTable(_NumericTable):
    """``kind = "number"``."""

    kind: Literal["number"]
    of: Identifier


class ChainTable(_NumericTable):
    """``kind = "chain"``: the relation must be a product of factors."""

    kind: Literal["chain"]
    of: Identifier


class AlgebraTable(_NumericTable):
    """``kind = "algebra"``: *of* is the species of a ``[molar_mass]`` table."""

    kind: Literal["algebra"]
    of: Identifier


class ChoiceTable(Named):
    """``kind = "choice"``: tick what is right."""

    kind: Literal["choice"]
    options: Annotated[dict[Identifier, Text], Field(min_length=2)]
    #: The keys of the options that are right.
    right: Annotated[tuple[Identifier, ...], Field(min_length=1)]
    several: Annotated[bool, Field(strict=True)] = False

    @model_validator(mode="after")
    def _offer_what_is_right(self) -> ChoiceTable:
        for key in self.right:
            if key not in self.options:
                hint = nearest(key, self.options)
                msg = f"right names {key!r}, which is not among the options.{hint}"
                raise ValueError(msg)
        if not self.several and len(self.right) > 1:
            msg = f"right names {len(self.right)} options; set several = true."
            raise ValueError(msg)
        return self


class LimitingTable(Named):
    """``kind = "limiting"``: which reagent runs out, from the amounts of each."""

    kind: Literal["limiting"]
    #: The amount of each reagent: ``{ oil = "oil_amount", lye = "lye_amount" }``.
    of: Annotated[dict[Identifier, Identifier], Field(min_length=2)]
    #: How near to each other two reagents may come, where a near tie is the lesson:
    #: "1 %".
    closest: Amount | None = None


NamedTable: TypeAlias = (
    ChoiceTable
    | LimitingTable
    | MatchingTable
    | MechanismTable
    | OrderTable
    | PredictionTable
    | RangeTable
    | ReagentsTable
    | TextTable
)

StepTable: TypeAlias = Annotated[
    ReadingTable | NumberTable | ChainTable | AlgebraTable | NamedTable,
    Field(discriminator="kind"),
]


class InsteadTable(Table):
    """``[variants.instead.NAME]``: what stands for some students in place of tables."""

    #: What these students have, in words: "sulfuric acid, 1.50 mol/L".
    says: Text
    #: Each in place of the species, or the reaction, of the same key.
    species: dict[Identifier, Species] = Field(default_factory=dict)
    reactions: dict[Identifier, Reaction] = Field(default_factory=dict)


class VariantsTable(Table):
    """``[variants]``: what differs in kind, and not in number, from draw to draw."""

    #: What it is that differs, in words: "acid for the filtrate".
    name: Text
    #: What students have who work with the tables of the file as they stand.
    usual: Text
    instead: Annotated[dict[Identifier, InsteadTable], Field(min_length=1)]


class LabFile(Table):
    """The whole file."""

    lab: LabTable
    #: The reaction that the lab is about.
    reaction: Reaction
    #: Work-up, quench and waste: each balanced like the first.
    reactions: dict[Identifier, Reaction] = Field(default_factory=dict)
    species: dict[Identifier, Species]
    readings: dict[Identifier, Reading] = Field(default_factory=dict)
    givens: dict[Identifier, GivenTable] = Field(default_factory=dict)
    hidden: dict[Identifier, Hidden] = Field(default_factory=dict)
    quantities: dict[Identifier, QuantityTable] = Field(default_factory=dict)
    molar_mass: dict[Identifier, MolarMass] = Field(default_factory=dict)
    slips: SlipsTable = Field(default_factory=SlipsTable)
    variants: VariantsTable | None = None
    prelab: tuple[StepTable, ...] = ()
    postlab: Annotated[tuple[StepTable, ...], Field(min_length=1)]
