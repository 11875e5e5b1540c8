"""What stands on a side of paper, and when another is begun."""

from __future__ import annotations

import pytest
from markupsafe import Markup

from workbook.report.side import Fact, Part, Task, lay_out
from workbook.wire.sheet import (
    ChainStep,
    ChoiceStep,
    MatchingStep,
    NumberStep,
    ReadingStep,
    TextStep,
)

DISPLAY = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 72 340 184"/>'


def ask(count: int, first: int = 1) -> tuple[Task, ...]:
    return tuple(
        Task(NumberStep(id=f"n{n}", asks="How much?", unit="g"), n)
        for n in range(first, first + count)
    )


def show(number: int = 0) -> Task:
    step = ReadingStep(
        id="dish",
        asks="Read the mass.",
        unit="g",
        instrument="balance",
        seen="It shows 4 g.",
        picture=DISPLAY,
    )
    return Task(step, number)


def lay(before: tuple[Task, ...], after: tuple[Task, ...]) -> list[tuple[str, int]]:
    parts = [Part(name="before", facts=(), tasks=before)]
    parts.append(Part(name="after", facts=(), tasks=after))
    whole = Part(name="", facts=(), tasks=before + after)
    sides = lay_out(whole, parts)
    return [(side.part, len(side.tasks) + len(side.readings)) for side in sides]


def test_a_few_steps_stand_on_one_side_whatever_they_are_of() -> None:
    assert lay(ask(2), ask(2, 3)) == [("", 4)]


def test_each_part_begins_a_side_where_one_does_not_hold_both() -> None:
    assert lay(ask(20), ask(10, 21)) == [("before", 20), ("after", 10)]


def test_a_part_goes_on_over_the_page() -> None:
    sides = lay(ask(50), ask(40, 51))
    assert [part for part, _ in sides] == ["before", "before", "after", "after"]
    assert sum(count for _, count in sides) == 90


def test_parts_share_a_page_where_that_saves_a_sheet() -> None:
    # By hand: 3 sides and 2 apart are 5, on 3 sheets; 100 such steps fill 4, on 2.
    sides = lay(ask(70), ask(30, 71))
    assert {part for part, _ in sides} == {""}
    assert len(sides) == 4


def test_what_is_left_of_a_page_is_room_to_write() -> None:
    whole = Part(name="", facts=(), tasks=ask(2))
    fuller = Part(name="", facts=(), tasks=ask(24))
    (two,) = lay_out(whole, [whole])
    (many,) = lay_out(fuller, [fuller])
    assert two.line == 10
    assert 6 <= many.line < 10


def test_an_instrument_is_not_shown_twice_but_where_it_is_asked_for() -> None:
    sides = lay((show(), *ask(20)), (show(), *ask(20, 21)))
    assert sides == [("before", 21), ("after", 20)]
    sides = lay((show(), *ask(20)), (show(41), *ask(20, 21)))
    assert sides == [("before", 21), ("after", 21)]


@pytest.mark.parametrize(
    ("step", "todo"),
    [
        (ChoiceStep(id="c", asks="?", options=(), several=True), "Tick each that"),
        (ChoiceStep(id="c", asks="?", options=(), several=False), "Tick one."),
        (
            MatchingStep(id="m", asks="?", rows=(), options=(), several=False),
            "Write the letter of one.",
        ),
        (NumberStep(id="n", asks="?", unit="g"), ""),
    ],
)
def test_paper_says_what_to_do(
    step: ChoiceStep | MatchingStep | NumberStep, todo: str
) -> None:
    assert Task(step, 1).todo.startswith(todo)
    assert bool(Task(step, 1).todo) is bool(todo)


def test_a_chain_has_more_room_than_a_number_and_a_text_a_line_a_prompt() -> None:
    chain = ChainStep(
        id="c",
        asks="?",
        unit="g",
        start="volume",
        start_unit="mL",
        start_of="oil",
        end_of="oil",
        offers=(),
    )
    text = TextStep(id="t", asks="?", prompts=("one", "two", "three", "four"))
    assert Task(chain, 1).lines > ask(1)[0].lines
    assert Task(text, 1).lines > 4


def test_the_tags_of_a_formula_take_no_room() -> None:
    plain = "H2O " * 20
    marked = Markup("H<sub>2</sub>O ") * 20
    assert Fact("Substances", (marked,)).lines == Fact("Substances", (plain,)).lines
    apart, running = (Fact("Given", ("a", "b"), runs=runs) for runs in (False, True))
    assert (apart.lines, running.lines) == (2, 1)
