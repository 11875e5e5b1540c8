"""A sheet holds every step of the public half, and nothing of the key half."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
import pytest

from tests.support.exercise import find_lab
from workbook.draw.key import CourseKey
from workbook.labfile.course import Conventions
from workbook.relation.text import to_text
from workbook.solver.bench import Bench, prepare
from workbook.wire.sheet import (
    AlgebraStep,
    ChainStep,
    ChoiceStep,
    NumberStep,
    ReadingStep,
    Sheet,
    SheetId,
)

if TYPE_CHECKING:
    from workbook.judge.case import Case
    from workbook.labfile.half import Lab

ID = SheetId("salt-1", "olive-oil-soap", 1, "a1")


@pytest.fixture(scope="module")
def bench(lab: Lab) -> Bench:
    return prepare(lab, Conventions())


@pytest.fixture
def sheet(bench: Bench, known_case: Case) -> Sheet:
    return bench.show(ID, known_case)


def test_every_step_stands_in_its_part_and_order(lab: Lab, sheet: Sheet) -> None:
    for part in ("prelab", "postlab"):
        asked = [ask.id for ask in getattr(lab.public, part)]
        assert [step.id for step in getattr(sheet, part)] == asked


@pytest.mark.parametrize(
    ("step", "kind"),
    [
        ("splash", ChoiceStep),
        ("limiting", ChoiceStep),
        ("oil_volume", ReadingStep),
        ("oil_mass", ChainStep),
        ("lye_left", NumberStep),
        ("soap.molar_mass", AlgebraStep),
    ],
)
def test_a_step_is_of_the_kind_that_the_lab_asks(
    sheet: Sheet, step: str, kind: type
) -> None:
    assert isinstance(sheet.step(step), kind)


def test_every_step_with_a_value_prints_its_allowance(
    bench: Bench, sheet: Sheet
) -> None:
    for step, allowance in bench.allowances.items():
        assert sheet.step(step).allowance == allowance


def test_the_rules_of_the_course_are_printed(bench: Bench, sheet: Sheet) -> None:
    assert sheet.rules == bench.rules


def test_a_chain_says_where_it_starts_and_ends(sheet: Sheet) -> None:
    step = sheet.step("lye_needed")
    assert isinstance(step, ChainStep)
    assert (step.start, step.start_unit) == ("planned amount of olive oil", "mol")
    assert (step.start_of, step.end_of) == ("olive oil", "sodium hydroxide")


def test_an_algebra_pad_prints_what_is_known_and_names_its_letters(
    sheet: Sheet,
) -> None:
    """C57H104O6: 57 × 12.011 + 104 × 1.008 + 6 × 15.999 = 885.453."""
    step = sheet.step("soap.molar_mass")
    assert isinstance(step, AlgebraStep)
    assert step.known[0] == "oil = 885.45 g/mol, the molar mass of olive oil"
    assert [letter.symbol for letter in step.letters] == ["oil", "x", "soap"]
    assert step.wanted == "soap"


def test_the_molar_mass_that_is_asked_is_printed_nowhere(sheet: Sheet) -> None:
    """18 × 12.011 + 33 × 1.008 + 22.990 + 2 × 15.999 = 304.449."""
    assert b"304" not in msgspec.json.encode(sheet)


def test_no_relation_stands_in_a_sheet(lab: Lab, sheet: Sheet) -> None:
    text = msgspec.json.encode(sheet).decode()
    for relation in lab.key.relations.values():
        assert to_text(relation, str) not in text
    assert "recovery" not in text
    assert "C3H5" not in text, "the backbone is for the student to find"


def test_unasked_quantities_stand_in_no_sheet(lab: Lab, sheet: Sheet) -> None:
    asked = {ask.of for ask in lab.public.asks}
    hidden = set(lab.key.relations) - asked - set(lab.public.instruments)
    text = msgspec.json.encode(sheet).decode()
    assert [name for name in sorted(hidden) if name in text] == []


def test_a_number_without_a_unit_asks_for_none() -> None:
    bench = prepare(find_lab("cyclohexanone"), Conventions())
    (case,) = bench.draw(CourseKey(b"k" * 32), ["a1"])
    sheet = bench.show(SheetId("c", "cyclohexanone", 1, "a1"), case)
    step = sheet.step("mass_intensity")
    assert isinstance(step, NumberStep)
    assert step.unit == ""
