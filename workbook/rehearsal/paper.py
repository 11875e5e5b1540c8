"""One student's paper: every value of a lab, worked out by that student's habit."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.matter.elements import load_weights
from workbook.matter.formula import molar_mass, read_formula
from workbook.measure.concordance import concordant_known
from workbook.measure.figures import Known
from workbook.measure.rounding import Ties, round_figures, round_place
from workbook.rehearsal.kept import Kept
from workbook.relation.tree import RATIO, Algebra, Node, evaluate

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Mapping

    from workbook.graph.quantity import Graph, Quantity
    from workbook.judge.case import Case
    from workbook.rehearsal.habit import Habit

_FUNCTIONS: Mapping[str, Callable[..., Known]] = {
    "concordant": concordant_known,
    "min": min,
    "max": max,
    "exp10": Known.exp10,
    "log10": Known.log10,
    "sqrt": Known.sqrt,
}

#: A molar mass is printed to two decimals on a sheet, and summed to three from a table.
_PRINTED_PLACE, _SUMMED_PLACE = -2, -3


class Paper:
    """
    What one student has written down, in base units.

    Parameters
    ----------
    case : Case
        The student's copy of the lab: only what is printed or shown is looked at.
    habit : Habit
        How the student works.
    chance : random.Random
        Decides which scales are misread.
    mistakes : mapping of str to Node
        The relations that the student has wrong, by quantity.

    Raises
    ------
    ArithmeticError
        If a mistake leads to a value that is none, as a division by zero does.
    """

    def __init__(
        self,
        case: Case,
        habit: Habit,
        chance: random.Random,
        mistakes: Mapping[str, Node],
    ) -> None:
        self.case = case
        self.habit = habit
        self._chance = chance
        self._kept: dict[str, Kept] = {}
        #: What each quantity comes to before it is rounded to be typed or read off.
        self.values: dict[str, Known] = {}
        for quantity in case.graph.quantities.values():
            self._take(quantity, mistakes.get(quantity.name))

    def work_out(self, relation: Node) -> Known:
        """
        Return what a relation comes to by this student's values and habit.

        Parameters
        ----------
        relation : Node
            The right-hand side; it may use any quantity of the lab.

        Returns
        -------
        Known
            In base units; not rounded yet.

        Raises
        ------
        ArithmeticError
            If it has no value.
        """
        return _work_out(self.case.graph, relation, self._find, self.habit)

    def typed(self, quantity: Quantity, known: Known) -> Decimal:
        """
        Return the number that the student types for a derived value.

        Parameters
        ----------
        quantity : Quantity
            What is asked.
        known : Known
            What it comes to, in base units.

        Returns
        -------
        Decimal
            In the quantity's own unit, rounded by habit.
        """
        own = _from_base(quantity, known.value)
        return _round(own, self.habit.figures, self.habit.ties)

    def in_own_unit(self, quantity: Quantity, known: Known) -> Decimal:
        """
        Return a value in the unit in which it is asked.

        Parameters
        ----------
        quantity : Quantity
            What it is a value of.
        known : Known
            In base units.

        Returns
        -------
        Decimal
            Not rounded.
        """
        return _from_base(quantity, known.value)

    def shown(self, quantity: Quantity) -> Decimal:
        """
        Return the number that the student types for a reading.

        Parameters
        ----------
        quantity : Quantity
            One with an instrument.

        Returns
        -------
        Decimal
            In the quantity's own unit, to the last digit of the instrument.
        """
        own = _from_base(quantity, self.values[quantity.name].value)
        place = quantity.instrument.place if quantity.instrument else 0
        return round_place(own, place, self.habit.ties)

    def carried(self, name: str) -> Decimal:
        """
        Return what the student goes on with.

        Parameters
        ----------
        name : str
            A quantity.

        Returns
        -------
        Decimal
            In base units.
        """
        return self._find(name).known.value

    def _find(self, name: str) -> Kept:
        # A mistake may use what an honest student has not worked out by then.
        if name not in self._kept:
            quantity = self.case.graph.quantities[name]
            self._take(quantity, None)
        return self._kept[name]

    def _take(self, quantity: Quantity, mistake: Node | None) -> None:
        relation = mistake or quantity.relation
        if quantity.name in self._kept:
            return
        if quantity.constant is not None:
            known = _look_up(quantity, self.case.graph, self.habit)
        elif relation is None or quantity.origin is Origin.READING:
            known = self._read(quantity)
        else:
            known = self.work_out(relation)
        self.values[quantity.name] = known
        if quantity.origin is Origin.DERIVED:
            figures = self.habit.figures
            if quantity.name not in self.case.graph.lab.public.asked:
                figures = max(figures, known.figures or 0)
            figures += self.habit.guard
            known = Known(_round(known.value, figures, self.habit.ties), known.place)
        self._kept[quantity.name] = Kept(known, self.habit)

    def _read(self, quantity: Quantity) -> Known:
        """Return what is printed, or what the student takes off an instrument."""
        shown = Decimal(repr(quantity.from_base(self.case.values[quantity.name])))
        place = quantity.draw.place if quantity.draw is not None else None
        if (instrument := quantity.instrument) is not None:
            place = instrument.place
            shown = round_place(shown, place, Ties.EVEN)
            off = int(instrument.allowance / instrument.step)
            # What is typed of one's own bench is the reading, so it can't be off.
            if off and self.habit.misreads and not quantity.is_own:
                moved = shown + instrument.step * self._chance.randint(-off, off)
                if instrument.lowest <= moved <= instrument.capacity:
                    shown = moved
        return _to_base(quantity, Known(shown, place))


def _work_out(
    graph: Graph, relation: Node, find: Callable[[str], Kept], habit: Habit
) -> Known:
    def call(name: str, arguments: tuple[Kept | str, ...]) -> Kept:
        if name == RATIO:
            named = map(str, arguments)
            return Kept(_exact(graph.ratio(*named)), habit)
        first, *others = (each for each in arguments if isinstance(each, Kept))
        return first.applied(_FUNCTIONS[name], *others)

    algebra = Algebra(lambda node: Kept(_exact(node.value), habit), find, call)
    return evaluate(relation, algebra).known


def _look_up(quantity: Quantity, graph: Graph, habit: Habit) -> Known:
    """Return a constant as the student has it: printed, or summed from a table."""
    constant = quantity.constant
    if constant is None:
        msg = f"{quantity.name!r} is no constant."
        raise ValueError(msg)
    formula = _formula_of(quantity.name, graph)
    if formula:
        weights = load_weights(habit.table) if habit.table else graph.weights
        mass = molar_mass(read_formula(formula), weights)
        place = _PRINTED_PLACE if habit.table is None else _SUMMED_PLACE
        constant = Known(round(mass, -place), constant.place)
    return _to_base(quantity, constant)


def _formula_of(name: str, graph: Graph) -> str:
    """Return the formula whose molar mass a constant is; empty for any other."""
    if name.startswith("M("):
        return name[2:-1]
    species, _, what = name.rpartition(".")
    if what != "molar_mass":
        return ""
    return graph.lab.public.species[species].formula or ""


def _exact(value: Fraction) -> Known:
    top, bottom = (Known(Decimal(each), None) for each in value.as_integer_ratio())
    return top / bottom


def _to_base(quantity: Quantity, known: Known) -> Known:
    factor, offset = quantity.unit.factor, quantity.unit.offset
    scaled = known if factor == 1 else known * _exact(factor)
    return scaled if offset == 0 else scaled + _exact(offset)


def _from_base(quantity: Quantity, value: Decimal) -> Decimal:
    known = Known(value, None) - _exact(Fraction(quantity.unit.offset))
    return (known / _exact(quantity.unit.factor)).value


def _round(value: Decimal, figures: int, ties: Ties) -> Decimal:
    return round_figures(value, figures, ties) if value else value
