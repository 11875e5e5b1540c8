"""
What a student is shown: one student's copy of a lab, and nothing else.

Nothing here says how a value is worked out. A sheet can stand in a file beside
the notebooks, and whoever reads it learns what the notebooks show.
"""

from __future__ import annotations

from typing import TypeAlias

from msgspec import Struct


class SheetId(Struct, frozen=True, forbid_unknown_fields=True, order=True):
    """Which sheet: the four names from which its values are drawn."""

    course: str
    lab: str
    revision: int
    student: str


#: The id of the given that says which variant of a lab a student has.
VARIANT = "[variants]"


class Given(Struct, frozen=True, forbid_unknown_fields=True):
    """Something that the student is handed, printed plainly."""

    id: str
    #: What it is, in words: "mass of soap to plan for".
    label: str
    #: As printed, unit included: "15.0 g".
    shown: str


class Reagent(Struct, frozen=True, forbid_unknown_fields=True):
    """A row of the table of substances."""

    id: str
    name: str
    formula: str
    #: Printed properties: "density 0.911 g/mL at 20 °C", in the lab file's order.
    data: tuple[str, ...]
    #: Hazard statements, code and official text: "H314 Causes severe ...".
    hazards: tuple[str, ...]
    #: The waste stream, in words; empty when the lab names none.
    waste: str


class Factor(Struct, frozen=True, forbid_unknown_fields=True):
    """A fraction that is offered for a factor chain; wrong ones are offered too."""

    id: str
    #: In words: "density of olive oil".
    label: str
    #: Number and unit above the line; the number is empty when it is asked elsewhere.
    top: str
    top_unit: str
    #: Number and unit below the line.
    bottom: str
    bottom_unit: str
    #: What the top and bottom units count: "olive oil"; equal ones cancel.
    top_of: str
    bottom_of: str


class Letter(Struct, frozen=True, forbid_unknown_fields=True):
    """A symbol that an algebra pad understands."""

    symbol: str
    #: "molar mass of the acid part, in g/mol".
    means: str


class Option(Struct, frozen=True, forbid_unknown_fields=True):
    """One thing to tick, or to put in its place."""

    id: str
    text: str


class _Step(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    id: str
    #: The question, in words.
    asks: str
    #: How close an answer must come, in words, as printed on the card.
    allowance: str = ""


class ReadingStep(_Step, frozen=True, kw_only=True, tag="reading"):
    """Read an instrument, and write the digits that it supports."""

    unit: str
    #: "graduated cylinder, 25 mL, divisions of 0.5 mL".
    instrument: str
    #: What is seen, in words; a digital display shows its digits. Empty while the
    #: gate before the lab is not passed.
    seen: str
    #: The same as an SVG, its true value written nowhere; empty for words alone.
    picture: str = ""


class OwnStep(_Step, frozen=True, kw_only=True, tag="own"):
    """Read an instrument of one's own bench, and type its digits once."""

    unit: str
    #: "top-loading balance, readability 0.01 g".
    instrument: str


class Sight(Struct, frozen=True, forbid_unknown_fields=True):
    """What the instrument of one reading shows."""

    #: The `ReadingStep.id`.
    step: str
    #: As `ReadingStep.seen`.
    seen: str
    #: As `ReadingStep.picture`.
    picture: str


class NumberStep(_Step, frozen=True, kw_only=True, tag="number"):
    """Work out a number."""

    #: The unit in which the answer is expected; others of its kind are accepted.
    unit: str


class ChainStep(_Step, frozen=True, kw_only=True, tag="chain"):
    """Build a factor chain from a start value, and work out its result."""

    unit: str
    #: "volume of olive oil", with the unit and substance it starts from.
    start: str
    start_unit: str
    start_of: str
    #: What the result counts: "olive oil".
    end_of: str
    offers: tuple[Factor, ...]


class AlgebraStep(_Step, frozen=True, kw_only=True, tag="algebra"):
    """Derive a molar mass, line by line."""

    unit: str
    #: What is known at the start, in words and numbers.
    known: tuple[str, ...]
    letters: tuple[Letter, ...]
    #: The symbol of `letters` that is wanted.
    wanted: str


class ChoiceStep(_Step, frozen=True, kw_only=True, tag="choice"):
    """Tick one option, or several."""

    options: tuple[Option, ...]
    #: True when more than one may be ticked.
    several: bool


class PredictionStep(_Step, frozen=True, kw_only=True, tag="prediction"):
    """Say beforehand what will be seen; the first answer stands."""

    options: tuple[Option, ...]


class MatchingStep(_Step, frozen=True, kw_only=True, tag="matching"):
    """Say which options belong to each row."""

    rows: tuple[Option, ...]
    options: tuple[Option, ...]
    #: True when more than one may belong to a row, or none.
    several: bool


class Side(Struct, frozen=True, forbid_unknown_fields=True):
    """What stands on one side of the arrow of a card."""

    #: How many of each there are, by formula as it is printed.
    species: dict[str, int]
    #: How many atoms of each element there are.
    atoms: dict[str, int]
    charge: int


class Move(Struct, frozen=True, forbid_unknown_fields=True):
    """One card of a mechanism: a step that happens, or one that does not."""

    id: str
    #: In words.
    text: str
    #: In formulas, as printed.
    change: str
    #: In formulas, as a screen reader can say them.
    said: str
    takes: Side
    gives: Side


class MechanismStep(_Step, frozen=True, kw_only=True, tag="mechanism"):
    """Put steps of a mechanism in order; not all of the cards belong."""

    #: Mixed as in an order.
    cards: tuple[Move, ...]


class OrderStep(_Step, frozen=True, kw_only=True, tag="order"):
    """Put cards in order; what the order leaves open may stand either way."""

    #: Mixed, in a way that rests on the sheet and the cards' names alone.
    cards: tuple[Option, ...]


class Cell(Struct, frozen=True, forbid_unknown_fields=True):
    """One cell of a table of reagents."""

    column: str
    unit: str
    #: As printed, unit included; empty where it is to be filled in.
    shown: str = ""


class ReagentRow(Struct, frozen=True, forbid_unknown_fields=True):
    """One row of a table of reagents."""

    id: str
    name: str
    #: In the order of the columns; a column may have none here.
    cells: tuple[Cell, ...]


class ReagentsStep(_Step, frozen=True, kw_only=True, tag="reagents"):
    """Fill in a table of reagents."""

    columns: tuple[Option, ...]
    rows: tuple[ReagentRow, ...]
    #: True when it is asked as well which reagent limits.
    asks_limiting: bool


class RangeStep(_Step, frozen=True, kw_only=True, tag="range"):
    """Write two readings as one range, the lower first."""

    unit: str


class TextStep(_Step, frozen=True, kw_only=True, tag="text"):
    """Write a text, which a person marks."""

    #: What to write about, a line each.
    prompts: tuple[str, ...]


Step: TypeAlias = (
    ReadingStep
    | OwnStep
    | NumberStep
    | ChainStep
    | AlgebraStep
    | ChoiceStep
    | MatchingStep
    | MechanismStep
    | OrderStep
    | PredictionStep
    | RangeStep
    | ReagentsStep
    | TextStep
)


class Sheet(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One student's copy of a lab."""

    #: Version of this form; a reader refuses one that it does not know.
    version: int
    id: SheetId
    title: str
    about: str
    #: Equations as printed, one a line.
    equations: tuple[str, ...]
    reagents: tuple[Reagent, ...]
    #: The usual cautions, one a paragraph.
    cautions: tuple[str, ...]
    givens: tuple[Given, ...]
    #: Conventions in force, in words: atomic weights, ties, decimal comma.
    rules: tuple[str, ...]
    prelab: tuple[Step, ...]
    postlab: tuple[Step, ...]
    #: The steps before the lab that must be right before its readings are shown.
    gate: tuple[str, ...] = ()

    def step(self, step_id: str) -> Step:
        """
        Return the step of that name.

        Parameters
        ----------
        step_id : str
            The `id` of a step of either part.

        Returns
        -------
        Step
            As it is shown.

        Raises
        ------
        KeyError
            If the sheet has no such step.
        """
        for step in (*self.prelab, *self.postlab):
            if step.id == step_id:
                return step
        raise KeyError(step_id)


#: The version that this package writes.
SHEET_VERSION = 1
