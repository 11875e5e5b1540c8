"""The page that a student gets back: whole, escaped, and valid HTML."""

from __future__ import annotations

from typing import TYPE_CHECKING

import html5lib
import pytest

from tests.support.marked import HOSTILE
from tests.support.page_text import find_numbers, read_page
from workbook.report.page import write_page
from workbook.wire.answer import Built

if TYPE_CHECKING:
    from workbook.report.page import Marked

A1, B2 = 0, 1


@pytest.fixture(scope="module")
def pages(marked: list[Marked]) -> list[str]:
    return [write_page(each, "Salt & soap").decode() for each in marked]


def block(page: str, marked: Marked, step: str) -> str:
    """Return what stands under the question of a step."""
    number = [each.step for each in marked.mark.steps].index(step) + 1
    head = f'<article id="step-{number}">'
    return page.partition(head)[2].partition("</article>")[0]


def test_the_page_says_whose_it_is_and_what_it_earned(
    pages: list[str], marked: list[Marked]
) -> None:
    texts = "".join(read_page(pages[A1])[0])
    assert "a1, Ada <Moss>, section morning" in texts
    assert "Salt & soap" in texts
    # 59 points by hand, and 4 of two texts that wait for a person.
    assert "59 of 63 points" in texts
    assert marked[A1].mark.remark in texts


def test_every_step_stands_there_with_its_points_and_its_reason(
    pages: list[str], marked: list[Marked]
) -> None:
    texts, tags = read_page(pages[B2])
    assert tags.count("article") == len(marked[B2].mark.steps) == 31
    said = "".join(texts)
    assert all(step.reason in said for step in marked[B2].mark.steps)


def test_a_slip_is_named_beside_what_was_typed_and_how_it_was_read(
    pages: list[str], marked: list[Marked]
) -> None:
    shown = block(pages[B2], marked[B2], "oil_mass")
    (mark,) = (each for each in marked[B2].mark.steps if each.step == "oil_mass")
    assert isinstance(mark.answer, Built)
    assert f'<bdi class="typed">{mark.answer.text}</bdi>' in shown
    assert f"Read as {mark.read_as}." in shown
    assert "upside down" in shown
    assert "0 of 3 points." in shown


def test_what_follows_from_a_mistake_says_so(
    pages: list[str], marked: list[Marked]
) -> None:
    assert "Follows on." in block(pages[B2], marked[B2], "oil_amount")


def test_the_worked_answer_uses_the_students_own_reading(
    pages: list[str], marked: list[Marked]
) -> None:
    for page, each in zip(pages, marked, strict=True):
        volume_ml = each.case.values["oil_volume"]
        worked = block(page, each, "oil_mass").partition('class="worked"')[2]
        assert f"= {volume_ml:.1f} mL × 0.911 g/mL" in worked
        # Three figures, as many as the volume has.
        assert f"<p>= {volume_ml * 0.911:.1f} g</p>" in worked


def test_a_reading_stands_beside_its_picture(
    pages: list[str], marked: list[Marked]
) -> None:
    shown = block(pages[A1], marked[A1], "oil_volume")
    assert '<img src="data:image/svg+xml,%3Csvg' in shown
    assert "cylinder" in shown


def test_a_step_without_an_answer_is_told(
    pages: list[str], marked: list[Marked]
) -> None:
    shown = block(pages[B2], marked[B2], "lye_left")
    assert "Nothing was answered." in shown
    assert "Your answer" not in shown


def test_hostile_text_stays_text(pages: list[str]) -> None:
    texts, tags = read_page(pages[B2])
    assert "script" not in tags
    assert HOSTILE in "".join(texts)
    assert "onerror=alert(2)>" not in pages[B2]


def test_a_parser_of_the_standard_finds_no_error(pages: list[str]) -> None:
    # html5lib follows the parsing rules of the HTML Living Standard, section 13.2.
    for page in pages:
        parser = html5lib.HTMLParser(strict=True)
        assert parser.parse(page) is not None


def test_the_parser_finds_a_tag_that_is_not_closed(pages: list[str]) -> None:
    broken = pages[A1].replace("</article>", "", 1)
    with pytest.raises(html5lib.html5parser.ParseError):
        html5lib.HTMLParser(strict=True).parse(broken)


def test_the_page_runs_and_fetches_nothing(pages: list[str]) -> None:
    _, tags = read_page(pages[A1])
    assert {"script", "link", "iframe", "object"}.isdisjoint(tags)
    assert "default-src 'none'" in pages[A1]
    assert "url(" not in pages[A1]


def test_no_number_of_another_student_stands_on_a_page(
    pages: list[str], marked: list[Marked]
) -> None:
    for page, other in ((pages[A1], marked[B2]), (pages[B2], marked[A1])):
        found = {n for text in read_page(page)[0] for n in find_numbers(text)}
        dish_g = f"{other.case.values['dish']:.2f}"
        assert dish_g not in found
