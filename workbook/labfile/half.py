"""
The two halves of a lab: what a student may learn, and what they may not.

They are two types with no common root, so a function that writes something for
students asks for a `PublicHalf`, and handing it the key does not type-check.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from workbook.errors import AuthorError
from workbook.labfile.form import Form, TableForm

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from workbook.labfile.field import DrawRange
    from workbook.labfile.finding import Finding
    from workbook.labfile.instrument import Instrument
    from workbook.labfile.position import Located
    from workbook.labfile.schema import MolarMass, Species
    from workbook.labfile.slip import SlipsTable
    from workbook.matter.equation import Equation
    from workbook.measure.units import Unit
    from workbook.measure.written import Written
    from workbook.relation.tree import Node

#: The variant in which all tables of a lab file stand as they are written.
USUAL: Final = ""

StepKind: TypeAlias = Literal[
    "reading",
    "own",
    "number",
    "chain",
    "algebra",
    "choice",
    "matching",
    "mechanism",
    "order",
    "prediction",
    "range",
    "reagents",
    "text",
]


@dataclass(frozen=True, slots=True)
class Label:
    """How a quantity is called in front of a student."""

    text: str
    unit: Unit
    #: The species that it counts, ``"lye.solution"`` for a solution, or None.
    of: str | None


@dataclass(frozen=True, slots=True)
class Ask:
    """One step, as a student may know it."""

    id: str
    kind: StepKind
    asks: str
    #: The quantity that is asked; None for a step that asks for none.
    of: str | None = None
    #: The quantity that a factor chain starts from.
    start: str | None = None
    #: What a choice, a prediction or a matching offers, or the cards to put in order,
    #: by key.
    options: tuple[tuple[str, str], ...] = ()
    several: bool = False
    #: What other kinds show besides their question.
    form: Form | None = None
    #: Whether the readings after the lab are shown only once this is right.
    is_gate: bool = False


@dataclass(frozen=True, slots=True)
class Pad:
    """What an algebra pad starts from and understands."""

    #: The species whose molar mass is known.
    start: str
    #: Each letter and what it stands for.
    letters: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Variant:
    """What some students have that others have not."""

    #: What differs, in words: "acid for the filtrate".
    name: str
    #: What it is here, in words: "sulfuric acid, 1.50 mol/L".
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicHalf:
    """Texts, species, units, and which steps there are."""

    #: The name of the lab's folder.
    name: str
    title: str
    about: str
    revision: int
    cautions: tuple[str, ...]
    #: Balanced; the lab's own reaction under the empty name.
    equations: Mapping[str, Equation]
    species: Mapping[str, Species]
    #: Quantities that are shown or asked, by name.
    labels: Mapping[str, Label]
    #: The instrument of each reading.
    instruments: Mapping[str, Instrument]
    #: Where each reading can lie that students bring from their own bench.
    windows: Mapping[str, DrawRange]
    #: Quantities that are printed on the sheet.
    givens: tuple[str, ...]
    #: The algebra pad of each species whose molar mass is asked.
    pads: Mapping[str, Pad]
    prelab: tuple[Ask, ...]
    postlab: tuple[Ask, ...]
    #: Which of its variants this is; None for a lab that has none.
    variant: Variant | None = None
    #: What students of the other variants may learn, by key.
    others: Mapping[str, PublicHalf] = field(default_factory=dict)

    @property
    def ways(self) -> dict[str, PublicHalf]:
        """The lab in each of its variants, the usual one first, by key."""
        return {USUAL: self, **self.others}

    @property
    def gate(self) -> tuple[str, ...]:
        """The steps that must be right before the readings after the lab are shown."""
        return tuple(ask.id for ask in self.prelab if ask.is_gate)

    @property
    def asked(self) -> frozenset[str]:
        """Every quantity that is asked, in a step or in a cell of a table."""
        cells = (
            c.of
            for a in self.asks
            if isinstance(a.form, TableForm)
            for c in a.form.cells
        )
        return frozenset(cells) | {ask.of for ask in self.asks if ask.of is not None}

    @property
    def asks(self) -> tuple[Ask, ...]:
        """Every step, those before the lab first."""
        return self.prelab + self.postlab


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyHalf:
    """Relations, draws and right answers: what never leaves the solver."""

    #: What gives a quantity or a derived reading.
    relations: Mapping[str, Node]
    #: The unit of every quantity, hidden ones too.
    units: Mapping[str, Unit]
    #: The range of every value that is drawn; of an own reading, of what stands in for
    #: it while a lab is tried out.
    draws: Mapping[str, DrawRange]
    hidden: frozenset[str]
    plausible: Mapping[str, DrawRange]
    #: How a molar mass follows from another's.
    pieces: Mapping[str, MolarMass]
    #: The right options of a choice.
    right: Mapping[str, tuple[str, ...]]
    #: The amounts that decide a question for the limiting reagent, by species.
    limiting: Mapping[str, Mapping[str, str]]
    #: How near two reagents may come, where an author says so, by step [-].
    closest: Mapping[str, float]
    #: What an author adds to a step's derived tolerance.
    widen: Mapping[str, Written]
    #: What the author says of known mistakes.
    slips: SlipsTable
    #: The options that belong to each row of a matching, by step.
    belongs: Mapping[str, Mapping[str, tuple[str, ...]]]
    #: The partial order of each step that asks for one, as sequences.
    before: Mapping[str, tuple[tuple[str, ...], ...]]
    #: The cards that do not belong to a mechanism, by step.
    decoys: Mapping[str, tuple[str, ...]]
    #: What earns the marks of a text, a line each.
    look_for: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lab:
    """A lab file, read and split."""

    public: PublicHalf
    key: KeyHalf
    path: Path
    #: The file's text by line, for findings that come later.
    located: Located
    #: The lab as students of its other variants have it, by key.
    others: Mapping[str, Lab] = field(default_factory=dict)

    @property
    def ways(self) -> dict[str, Lab]:
        """The lab in each of its variants, the usual one first, by key."""
        return {USUAL: self, **self.others}

    def refuse(self, findings: Iterable[Finding]) -> AuthorError:
        """
        Return the error that tells what is wrong in the file.

        Parameters
        ----------
        findings : iterable of Finding
            Places by their keys, each with a sentence.

        Returns
        -------
        AuthorError
            Each finding led by file and line, in the order of lines.
        """
        found = sorted((self.located.line(place), text) for place, text in findings)
        return AuthorError(tuple(f"{self.path}:{line}: {text}" for line, text in found))
