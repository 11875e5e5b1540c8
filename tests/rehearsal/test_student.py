"""What a simulated student types into a sheet."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.measure.figures import Known
from workbook.measure.units import read_unit
from workbook.measure.written import Comma, read_answer
from workbook.rehearsal.student import Student
from workbook.relation.reader import read_relation
from workbook.wire.answer import Built, Chosen, Derived, Placed, Typed

if TYPE_CHECKING:
    import random

    from workbook.rehearsal.paper import Paper


def test_every_step_that_has_one_gets_an_answer_of_its_kind(
    paper: Paper, chance: random.Random
) -> None:
    answers = Student(paper, chance).answer_all()
    kinds = {"reading": Typed, "number": Typed, "chain": Built, "algebra": Derived}
    for ask in paper.case.graph.lab.public.asks:
        if ask.of is not None:
            assert isinstance(answers[ask.id], kinds[ask.kind])
    assert answers["limiting"] == Chosen(("oil",))


def test_an_answer_holds_the_value_of_the_paper(
    paper: Paper, chance: random.Random
) -> None:
    answer = Student(paper, chance).answer_all()["oil_mass"]
    assert isinstance(answer, Built)
    assert answer.factors == (Placed("oil.density", turned=False),)
    gram = read_unit("g")
    typed = read_answer(answer.text, gram, comma=Comma.ASK).in_unit(gram)
    # 12.5 mL × 0.911 g/mL.
    assert typed == Decimal("11.3875")


def test_a_mistake_in_the_working_is_shown_where_it_can_be(
    paper: Paper, chance: random.Random
) -> None:
    student = Student(paper, chance)
    asks = {ask.id: ask for ask in paper.case.graph.lab.public.asks}
    over = student.answer_wrongly(
        asks["oil_mass"], "13.7 g", read_relation("oil_volume / oil.density")
    )
    assert over == Built((Placed("oil.density", turned=True),), "13.7 g")
    ten = read_relation("10 * oil_volume * oil.density")
    assert student.answer_wrongly(asks["oil_mass"], "114 g", ten) is None


def test_a_number_is_rounded_by_habit(paper: Paper, chance: random.Random) -> None:
    quantity = paper.case.graph.quantities["oil_mass"]
    known = Known(Decimal("11.38749999999"), -1)
    assert paper.typed(quantity, known) == Decimal("11.38750000")
    assert Student(paper, chance).paper is paper
