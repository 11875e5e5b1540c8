"""The instructor's answer book."""

from __future__ import annotations

from html.parser import HTMLParser
from typing import TYPE_CHECKING

import pytest
from typing_extensions import override

from tests.support.soap import name_sheet
from workbook.issuing.answerbook import AnswerPage, Value, make_page, print_book
from workbook.labfile.roster import Student

if TYPE_CHECKING:
    from workbook.solver.source import CourseSource

HOSTILE = "<script>alert('x')</script> & \"co\""


@pytest.fixture(scope="module")
def page(source: CourseSource) -> AnswerPage:
    return make_page(Student("a1", HOSTILE, "morning"), source.case(name_sheet("a1")))


def find(page: AnswerPage, name: str) -> Value:
    return next(value for value in page.drawn if value.name == name)


def test_values_are_printed_to_their_instruments_digits(page: AnswerPage) -> None:
    # A balance of 0.01 g, and a 25 mL cylinder read to a fifth of its 0.5 mL.
    assert find(page, "dish").shown.partition(".")[2].endswith(" g")
    assert len(find(page, "dish").shown.partition(".")[2]) == len("05 g")
    assert len(find(page, "oil_volume").shown.partition(".")[2]) == len("1 mL")


def test_values_are_the_students_own(page: AnswerPage, source: CourseSource) -> None:
    values = source.case(name_sheet("a1")).values
    for name in ("dish", "dish_and_soap", "oil_volume", "planned_oil"):
        printed = float(find(page, name).shown.split()[0])
        assert printed == pytest.approx(values[name], abs=0.005)


def test_a_hidden_value_is_told_to_the_instructor(page: AnswerPage) -> None:
    hidden = find(page, "recovery")
    assert hidden.origin == "hidden"
    assert 0.62 <= float(hidden.shown) <= 0.93


def test_every_step_has_its_answer(page: AnswerPage, source: CourseSource) -> None:
    (lab,) = source.labs.values()
    assert [step.step_id for step in page.steps] == [ask.id for ask in lab.public.asks]
    assert all(step.value_text for step in page.steps)


class Tags(HTMLParser):
    """Collect the tags and the text of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text = ""

    @override
    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        assert not {name for name, _ in attrs} & {"src", "href", "onload", "onclick"}

    @override
    def handle_data(self, data: str) -> None:
        self.text += data


@pytest.fixture
def tags(page: AnswerPage) -> Tags:
    found = Tags()
    found.feed(b"".join(print_book("Salt & soap", [page, page])).decode())
    return found


def test_a_name_is_text_whatever_it_holds(tags: Tags) -> None:
    assert "script" not in tags.tags
    assert HOSTILE in tags.text


def test_the_book_loads_nothing_and_prints_each_student_on_a_page(tags: Tags) -> None:
    assert tags.tags.count("section") == 2
    assert not {"img", "link", "iframe", "object"} & set(tags.tags)
    assert "break-before: page" in tags.text


def test_the_book_holds_values_and_answers(tags: Tags, page: AnswerPage) -> None:
    for value in page.drawn:
        assert value.shown in tags.text
    for step in page.steps:
        assert step.value_text in tags.text
