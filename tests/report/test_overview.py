"""The report on a class, whole and in parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import html5lib
import pytest

from tests.support.page_text import read_page
from workbook.report.cohort import form_cohort
from workbook.report.fact import find_fact
from workbook.report.overview import (
    look_over,
    print_overviews,
    say_share,
    show_overview,
)

if TYPE_CHECKING:
    from workbook.labfile.roster import Student
    from workbook.report.overview import Overview
    from workbook.report.page import Marked


@pytest.fixture(scope="module")
def overview(marked: list[Marked], roster: tuple[Student, ...]) -> Overview:
    facts = [find_fact(each.mark, each.case) for each in marked]
    graph = marked[0].case.graph
    return look_over(graph, roster, form_cohort(graph, facts))


@pytest.fixture(scope="module")
def page(overview: Overview) -> str:
    return print_overviews("Salt & soap", [overview]).decode()


def test_the_class_is_counted(overview: Overview) -> None:
    assert (overview.students, overview.hand_ins) == (3, 2)
    # 59 by hand, and 3 + 2 fewer, of 63.
    assert overview.points == (56.5, 63.0)


def test_the_yields_stand_beside_the_range_of_the_lab(overview: Overview) -> None:
    (view,) = overview.yields
    # The lab file: plausible = "60 .. 95 %".
    assert view.expected == (60.0, 95.0)
    assert view.count == 2
    assert sum(number for _, number in view.bars) + view.beyond == 2


def test_small_numbers_are_called_small(page: str) -> None:
    assert "with 2 hand-ins a share can be far off" in "".join(read_page(page)[0])


def test_every_plot_has_its_figures_in_words_or_a_table(page: str) -> None:
    _, tags = read_page(page)
    assert tags.count("figure") == tags.count("figcaption") == 2
    assert tags.count("caption") == 2


def test_a_parser_of_the_standard_finds_no_error(page: str) -> None:
    # html5lib follows the parsing rules of the HTML Living Standard, section 13.2.
    html5lib.HTMLParser(strict=True).parse(page)


def test_names_of_the_roster_are_text(page: str) -> None:
    # The third student handed in nothing, and is named.
    texts, tags = read_page(page)
    assert "Cleo Fenn" in texts
    assert "script" not in tags


def test_one_lab_can_stand_in_another_page(overview: Overview) -> None:
    part = show_overview(overview)
    assert part.startswith("<section>")
    assert "Hard soap from olive oil" in part


def test_an_empty_class_has_a_report(
    marked: list[Marked], roster: tuple[Student, ...]
) -> None:
    graph = marked[0].case.graph
    page = print_overviews(
        "S", [look_over(graph, roster, form_cohort(graph, []))]
    ).decode()
    assert "0 of 3 students handed in." in page
    assert "Nobody answered this step." in page


def test_a_share_of_nothing_is_no_number() -> None:
    assert say_share(0, 0) == "0 of 0"
