"""A lab made ready for its students: compiled, drawn from, and shown."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.draw.sample import draw_class, grid_of
from workbook.graph.build import build_graph
from workbook.graph.compile import CompiledGraph
from workbook.judge.allowance import say_allowances
from workbook.judge.case import Case, Convention
from workbook.matter.elements import load_weights
from workbook.measure.rounding import write
from workbook.solver.convention import say_rules
from workbook.solver.middle import middle_case
from workbook.solver.picture import see
from workbook.solver.sheet import Shown, write_sheet

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.draw.key import CourseKey
    from workbook.graph.quantity import Quantity
    from workbook.labfile.course import Conventions
    from workbook.labfile.half import Lab
    from workbook.wire.sheet import Sheet, SheetId


# Compared by identity: what a lab holds is much, and some of it has no hash.
@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """A lab under the conventions of a course."""

    lab: Lab
    compiled: CompiledGraph
    convention: Convention
    #: How close an answer must come, in words, by step.
    allowances: Mapping[str, str]
    #: The conventions, in words.
    rules: tuple[str, ...]

    def draw(self, key: CourseKey, students: Sequence[str]) -> list[Case]:
        """
        Return the cases of several students, drawn and solved at once.

        Parameters
        ----------
        key : CourseKey
            The course's secret.
        students : sequence of str
            Their ids.

        Returns
        -------
        list of Case
            In the order of *students*.

        Raises
        ------
        DrawError
            If a student gets no fair values.
        """
        drawn = draw_class(self.compiled, key, students)
        graph = self.compiled.graph
        return [
            Case(graph, drawn.of(index), self.convention)
            for index in range(len(students))
        ]

    def show(self, sheet: SheetId, case: Case) -> Sheet:
        """
        Return what one student may see.

        Parameters
        ----------
        sheet : SheetId
            Whose it is.
        case : Case
            That student's.

        Returns
        -------
        Sheet
            Without a relation, a hidden value or an answer.
        """
        quantities, public = case.graph.quantities, self.lab.public
        shown = Shown(
            sights={
                name: see(quantities[name], case.values[name])
                for name in public.instruments
                if name not in public.windows
            },
            givens={
                name: _print_given(quantities[name], case.values[name])
                for name in public.givens
            },
            allowances=self.allowances,
            rules=self.rules,
        )
        return write_sheet(public, sheet, shown, case.graph.weights)


def prepare(lab: Lab, conventions: Conventions) -> Bench:
    """
    Return a lab made ready.

    Parameters
    ----------
    lab : Lab
        Read and split.
    conventions : Conventions
        How numbers are read and judged.

    Returns
    -------
    Bench
        Serves any number of students.

    Raises
    ------
    AuthorError
        If the lab's relations do not fit each other.
    """
    convention = Convention(
        conventions.comma, conventions.ties, conventions.figures_slack
    )
    weights = load_weights(conventions.atomic_weights)
    compiled = CompiledGraph(build_graph(lab, weights))
    allowances = say_allowances(middle_case(compiled, convention))
    return Bench(lab, compiled, convention, allowances, say_rules(conventions))


def _print_given(quantity: Quantity, value: float) -> str:
    place = grid_of(quantity).place
    number = Decimal(repr(quantity.from_base(value))).quantize(Decimal(1).scaleb(place))
    return quantity.unit.put_behind(write(number))
