"""A simulated student: a paper, and how what stands on it is typed into the sheet."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, TypeAlias

from workbook.graph.quantity import Origin
from workbook.judge.table import list_cells
from workbook.labfile.form import RangeForm, TableForm
from workbook.measure.rounding import Ties, round_place, write
from workbook.rehearsal.form import answer_form
from workbook.rehearsal.handwriting import write_down
from workbook.rehearsal.working import build_chain, derive_lines, derive_wrongly
from workbook.wire.answer import (
    Answer,
    Built,
    Chosen,
    Derived,
    Filled,
    Filling,
    Noted,
    Typed,
)

if TYPE_CHECKING:
    import random

    from workbook.labfile.half import Ask
    from workbook.measure.figures import Known
    from workbook.rehearsal.paper import Paper
    from workbook.relation.tree import Node

#: Answers that hold a typed result.
Result: TypeAlias = Typed | Noted | Built | Derived

#: Molar masses stand in lines of algebra to two decimals [-].
_PLACE = -2


class Student:
    """
    Someone who answers a sheet from their paper.

    Parameters
    ----------
    paper : Paper
        What they have worked out.
    chance : random.Random
        Decides how each number is typed.
    """

    def __init__(self, paper: Paper, chance: random.Random) -> None:
        self.paper = paper
        self._chance = chance
        self._graph = paper.case.graph

    def answer_all(self) -> dict[str, Answer]:
        """
        Return the answer to every step.

        Returns
        -------
        dict of str to Answer
            By step; what has no right answer is left out.
        """
        answers: dict[str, Answer | None] = {}
        for ask in self._graph.lab.public.asks:
            if ask.of is not None:
                answers[ask.id] = self.answer(ask, self.paper.values[ask.of])
            elif isinstance(ask.form, TableForm):
                answers[ask.id] = self._fill(ask, ask.form)
            elif isinstance(ask.form, RangeForm):
                answers[ask.id] = self._range(ask.form)
            elif ask.id in self._graph.lab.key.limiting:
                answers[ask.id] = Chosen((self._choose(ask),))
            else:
                answers[ask.id] = answer_form(self._graph, ask)
        return {step: each for step, each in answers.items() if each is not None}

    def _range(self, form: RangeForm) -> Typed:
        """Write down the two ends as they were read."""
        quantities = (self._graph.quantities[name] for name in form.of)
        low, high = (write(self.paper.shown(each)) for each in quantities)
        between = self._chance.choice(["-", " - ", "–", " to "])
        return Typed(f"{low}{between}{high} {form.unit}")

    def answer(self, ask: Ask, known: Known) -> Result:
        """
        Return the answer to one step.

        Parameters
        ----------
        ask : Ask
            One that asks for a quantity.
        known : Known
            What the student has for it, in base units.

        Returns
        -------
        Result
            Typed by one of many ways.
        """
        quantity = self._graph.quantities[ask.of or ""]
        if quantity.origin is Origin.READING:
            shown = self.paper.shown(quantity)
        else:
            shown = self.paper.typed(quantity, known)
        comma = self.paper.case.convention.comma
        text = write_down(shown, quantity.unit, comma, self._chance)
        return self.answer_with(ask, text)

    def answer_with(self, ask: Ask, text: str) -> Result:
        """
        Return the answer to one step whose result is typed so.

        Parameters
        ----------
        ask : Ask
            One that asks for a quantity.
        text : str
            The result as typed.

        Returns
        -------
        Result
            With right working where the step asks for it.
        """
        if ask.kind == "chain":
            right = self._graph.lab.key.relations[ask.of or ""]
            return Built(build_chain(self._graph, ask, right) or (), text)
        if ask.kind == "algebra":
            return Derived(self._lines(ask), text)
        return Noted(text) if ask.kind == "own" else Typed(text)

    def answer_wrongly(self, ask: Ask, text: str, wrong: Node) -> Result | None:
        """
        Return the answer to one step with a mistake in its working.

        Parameters
        ----------
        ask : Ask
            A chain, or an algebra pad.
        text : str
            The result as typed.
        wrong : Node
            The relation that the mistake makes.

        Returns
        -------
        Result or None
            None where the working has no way to say it.
        """
        if ask.kind == "chain":
            right = build_chain(self._graph, ask, self._graph.lab.key.relations[ask.id])
            chain = build_chain(self._graph, ask, wrong)
            return None if chain in {None, (), right} else Built(chain or (), text)
        species = ask.id.removesuffix(".molar_mass")
        try:
            return Derived(derive_wrongly(self._graph, species, wrong), text)
        except ValueError:
            return None

    def _lines(self, ask: Ask) -> tuple[str, ...]:
        species = ask.id.removesuffix(".molar_mass")
        row = self._graph.lab.key.pieces[species]
        return derive_lines(row, species, self._say, self._chance)

    def _say(self, name: str) -> str:
        """Return the molar mass that the student has for a name of the pad."""
        quantities = self._graph.quantities
        key = f"{name}.molar_mass"
        known = self.paper.values[key if key in quantities else f"M({name})"]
        return write(round_place(known.value, _PLACE, Ties.EVEN))

    def _fill(self, ask: Ask, form: TableForm) -> Filled:
        cells = list_cells([ask])
        fillings = []
        for cell in form.cells:
            answer = self.answer(cells[cell.of], self.paper.values[cell.of])
            fillings.append(Filling(cell.row, cell.column, answer.text))
        limiting = self._choose(ask) if form.asks_limiting else ""
        return Filled(tuple(fillings), limiting)

    def _choose(self, ask: Ask) -> str:
        """Return the reagent that runs out first, by the student's own amounts."""
        amounts = self._graph.lab.key.limiting[ask.id]
        first = next(iter(amounts))
        equation = self._graph.equation_of(*amounts)

        def extent(species: str) -> Decimal:
            ratio = equation.ratio(species, first)
            return self.paper.carried(amounts[species]) / Decimal(float(ratio))

        return min(amounts, key=extent)
