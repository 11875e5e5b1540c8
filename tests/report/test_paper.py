"""Problem sets on paper: what is chosen, what is shown, and what is not."""

from __future__ import annotations

from typing import TYPE_CHECKING

import html5lib
import pytest

from tests.support.page_text import find_numbers, read_page
from tests.support.variant import STUDENTS, make_varied_source, say_variant
from workbook.errors import TaskError
from workbook.report.paper import (
    DEFER,
    Problems,
    choose_steps,
    find_sources,
    print_papers,
    set_problems,
)
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from workbook.graph.quantity import Graph
    from workbook.report.page import Marked

LAB = "olive-oil-soap"


@pytest.fixture(scope="module")
def graphs(marked: list[Marked]) -> Mapping[str, Graph]:
    return {LAB: marked[0].case.graph}


def set_page(marked: Marked, steps: tuple[str, ...]) -> Problems:
    return set_problems(marked.student, marked.sheet, marked.case.graph, steps)


@pytest.mark.parametrize(
    ("picks", "subject", "steps"),
    [
        ((), "percent-yields", ("percent_yield",)),
        ((), "molar-masses", ("soap.molar_mass",)),
        ((), "limiting-reagents", ("trial", "limiting")),
        ((f"{LAB}/oil_mass", f"{LAB}/splash"), None, ("splash", "oil_mass")),
        ((LAB,), "percent-yields", ("percent_yield",)),
    ],
)
def test_steps_are_chosen_by_name_and_by_what_they_are_about(
    graphs: Mapping[str, Graph],
    picks: tuple[str, ...],
    subject: str | None,
    steps: tuple[str, ...],
) -> None:
    assert choose_steps(graphs, picks, subject) == {LAB: steps}


def test_without_a_choice_every_step_is_asked(graphs: Mapping[str, Graph]) -> None:
    assert len(choose_steps(graphs, (), None)[LAB]) == 31


@pytest.mark.parametrize(
    ("pick", "sentence"),
    [
        ("olive-oil-soup", "Did you mean 'olive-oil-soap'?"),
        (f"{LAB}/oil_mas", "Did you mean 'oil_mass'?"),
    ],
)
def test_a_name_that_is_not_there_is_told(
    graphs: Mapping[str, Graph], pick: str, sentence: str
) -> None:
    with pytest.raises(TaskError, match=sentence.replace("?", r"\?")):
        choose_steps(graphs, [pick], None)


def test_a_choice_that_leaves_nothing_is_told(graphs: Mapping[str, Graph]) -> None:
    with pytest.raises(TaskError, match="is about percent-yields"):
        choose_steps(graphs, [f"{LAB}/oil_mass"], "percent-yields")


def test_a_page_shows_what_its_step_rests_on(graphs: Mapping[str, Graph]) -> None:
    # By hand from the lab file: the yield follows from the volume of oil and both
    # weighings, an amount of oil from its volume alone.
    assert find_sources(graphs[LAB], ["percent_yield"]) == {
        "oil_volume",
        "dish",
        "dish_and_soap",
    }
    assert find_sources(graphs[LAB], ["oil_amount"]) == {"oil_volume"}
    assert find_sources(graphs[LAB], ["limiting"]) == {"oil_volume", "lye_volume"}


def test_instruments_are_pictures(marked: list[Marked]) -> None:
    paper = set_page(marked[0], ("percent_yield",))
    assert [task.step.id for task in paper.sides[0].readings] == [
        "oil_volume",
        "dish",
        "dish_and_soap",
    ]
    page = print_papers("Salt & soap", [paper]).decode()
    assert page.count('src="data:image/svg+xml,%3Csvg') == 3


def test_no_answer_and_no_hidden_value_is_printed(marked: list[Marked]) -> None:
    values = marked[0].case.values
    paper = set_page(marked[0], ("percent_yield",))
    texts, _ = read_page(print_papers("Salt & soap", [paper]).decode())
    found = {number for text in texts for number in find_numbers(text)}
    percent = 100 * (values["dish_and_soap"] - values["dish"])
    percent /= values["theoretical_yield"]
    assert not {f"{percent:.1f}", f"{percent:.0f}", f"{values['recovery']:.3f}"} & found


def test_each_student_begins_a_page(marked: list[Marked]) -> None:
    papers = [set_page(each, ("percent_yield",)) for each in marked]
    page = print_papers("Salt & soap", papers).decode()
    _, tags = read_page(page)
    assert tags.count("section") == 2
    assert "break-before: page" in page
    html5lib.HTMLParser(strict=True).parse(page)


def test_every_kind_of_step_can_stand_on_paper(marked: list[Marked]) -> None:
    steps = tuple(ask.id for ask in marked[0].case.graph.lab.public.asks)
    page = print_papers("S", [set_page(marked[0], steps)]).decode()
    html5lib.HTMLParser(strict=True).parse(page)
    texts = "".join(read_page(page)[0])
    for ask in marked[0].case.graph.lab.public.asks:
        assert ask.asks in texts


def test_what_is_done_before_the_lab_comes_with_cautions(marked: list[Marked]) -> None:
    before = set_page(marked[0], ("lye_needed",))
    after = set_page(marked[0], ("percent_yield",))
    told = {fact.head: fact.texts for fact in before.sides[0].facts}
    assert told["Cautions"] == (*marked[0].sheet.cautions, DEFER)
    assert "Cautions" not in {fact.head for fact in after.sides[0].facts}
    page = print_papers("S", [before]).decode()
    assert "its safety data sheets and its licensed staff decide." in page


def test_a_page_says_which_variant_of_the_lab_it_is(
    tmp_path: Path, marked: list[Marked]
) -> None:
    source, student = make_varied_source(tmp_path), STUDENTS[0]
    sheet_id = SheetId("c", "chalk-in-acid", 1, student)
    case = source.case(sheet_id)
    sheet = source.sheet(sheet_id)
    page = set_problems(marked[0].student, sheet, case.graph, ("rinse_mass",))
    told = {fact.head: fact.texts for fact in page.sides[0].facts}
    assert told["Given"][0] == f"acid for rinsing: {say_variant(case)}"
