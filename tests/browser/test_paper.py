"""Problems on paper, as Chromium prints them: every lab, on both sizes of paper."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.support.exercise import LABS
from tests.support.issued import EXERCISES
from workbook.draw.key import new_key, write_key
from workbook.labfile.roster import Student
from workbook.report.paper import SUBJECTS, choose_steps, print_papers, set_problems
from workbook.solver.source import KEY_FILE, CourseSource
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser

    from workbook.report.paper import Problems

pytestmark = pytest.mark.browser

#: A page of a PDF (ISO 32000-1, 7.7.3.3); the tree above it is of the type Pages.
_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")

#: Type that is smaller is hard to read on paper: common practice, no source. [pt]
_SMALLEST = 8.5


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> CourseSource:
    folder: Path = tmp_path_factory.mktemp("paper")
    (folder / "roster.csv").write_text("student,name\na1,Ada Moss\n", encoding="utf-8")
    labs = ", ".join(f'"{EXERCISES / lab}"' for lab in LABS)
    (folder / "course.toml").write_text(
        f'[course]\nname = "paper"\ntitle = "On paper"\nroster = "roster.csv"\n'
        f"labs = [{labs}]\n",
        encoding="utf-8",
    )
    write_key(new_key(), folder / KEY_FILE)
    return CourseSource(folder / "course.toml")


def set_lab(source: CourseSource, lab: str, subject: str | None) -> list[Problems]:
    """Set what a lab asks of two students."""
    takers = [Student("a1", "Ada Moss", "morning"), Student("b2", "Bo", "evening")]
    papers = []
    for taker, case in zip(takers, source.cases(lab, ["a1", "b2"]), strict=True):
        sheet_id = SheetId(source.name, lab, source.labs[lab].public.revision, taker.id)
        steps = choose_steps({lab: case.graph}, [lab], subject)[lab]
        sheet = source.show_whole(sheet_id, case)
        papers.append(set_problems(taker, sheet, case.graph, steps))
    return papers


def count_pages(browser: Browser, papers: list[Problems], size: str) -> int:
    page = browser.new_page()
    page.set_content(print_papers("On paper", papers).decode())
    printed = page.pdf(format=size)
    page.close()
    return len(_PAGE.findall(printed))


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("lab", LABS)
def test_a_whole_lab_takes_two_sheets_of_two_sides_at_most(
    browser: Browser, source: CourseSource, lab: str, size: str
) -> None:
    papers = set_lab(source, lab, None)
    assert {len(paper.sides) for paper in papers} <= {2, 3, 4}
    # With the empty side, where there is one: the next student begins a sheet.
    assert count_pages(browser, papers, size) == sum(
        len(paper.sides) + len(paper.sides) % 2 for paper in papers
    )


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("subject", sorted(SUBJECTS))
def test_a_drill_takes_a_page_a_student(
    browser: Browser, source: CourseSource, subject: str, size: str
) -> None:
    graphs = {lab: source.cases(lab, ["a1"])[0].graph for lab in source.labs}
    labs = choose_steps(graphs, [], subject)
    papers = [paper for lab in labs for paper in set_lab(source, lab, subject)]
    assert count_pages(browser, papers, size) == len(papers) == 2 * len(labs)


def test_what_is_printed_can_be_read(browser: Browser, source: CourseSource) -> None:
    page = browser.new_page()
    page.emulate_media(media="print")
    page.set_content(print_papers("On paper", set_lab(source, LABS[0], None)).decode())
    sizes = page.evaluate(
        "[...document.querySelectorAll('.side *')].filter((at) => at.tagName !== 'SUB')"
        ".map((at) => parseFloat(getComputedStyle(at).fontSize) * 72 / 96)"
    )
    page.close()
    assert len(sizes) > 100
    assert min(sizes) >= _SMALLEST
