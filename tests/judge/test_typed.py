"""What was typed, as a number in base units; what can't be read is no attempt."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.judge.typed import Typing, read_typed, sure_ways
from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from workbook.judge.case import Case


def read(case: Case, name: str, text: str) -> Typing | Verdict:
    return read_typed(case, case.graph.quantities[name], text)


@pytest.mark.parametrize(
    ("name", "text", "value", "half"),
    [
        ("oil_mass", "13.60 g", 13.60, 0.005),
        ("oil_mass", "13600 mg", 13.6, 0.0005),
        ("oil_mass", "0.0136 kg", 13.6, 0.05),
        ("oil_mass", "13.6", 13.6, 0.05),
        ("oil_volume", "0.0125 L", 12.5, 0.05),
        ("oil_amount", "12.9 mmol", 0.0129, 0.00005),
        ("percent_yield", "80.0", 80.0, 0.05),
    ],
)
def test_any_unit_of_the_right_kind_is_converted(
    case: Case, name: str, text: str, value: float, half: float
) -> None:
    typing = read(case, name, text)
    assert isinstance(typing, Typing)
    assert (typing.value, typing.half) == pytest.approx((value, half))


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("", Outcome.BLANK),
        ("?", Outcome.BLANK),
        ("13..6 g", Outcome.UNREAD),
        ("l3.6 g", Outcome.UNREAD),
        ("13.6 6 g", Outcome.UNREAD),
        ("13.6 qq g", Outcome.UNREAD),
        ("1,500 g", Outcome.ASKED),
        ("13.5 - 13.7 g", Outcome.ASKED),
        ("25*0.915", Outcome.ASKED),
    ],
)
def test_what_can_not_be_read_is_no_attempt(
    case: Case, text: str, outcome: Outcome
) -> None:
    verdict = read(case, "oil_mass", text)
    assert isinstance(verdict, Verdict)
    assert verdict.outcome is outcome
    assert outcome in NO_ATTEMPT
    assert verdict.sentence.endswith((".", "?"))


def test_a_bare_fraction_of_a_percentage_is_asked_about(case: Case) -> None:
    verdict = read(case, "percent_yield", "0.800")
    assert isinstance(verdict, Verdict)
    assert verdict.outcome is Outcome.ASKED
    assert "0.800 %" in verdict.sentence
    assert "80.0 %" in verdict.sentence


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("12.5 mol", ("amount of substance", "mass")),
        ("12.5 mL", ("volume", "mass")),
        ("12.5 g/mol", ("molar mass", "mass")),
        ("12.5 %", ("percentage", "mass")),
    ],
)
def test_a_wrong_dimension_gets_a_sentence_that_names_both(
    case: Case, text: str, words: tuple[str, str]
) -> None:
    verdict = read(case, "oil_mass", text)
    assert isinstance(verdict, Verdict)
    assert verdict.outcome is Outcome.DIMENSION
    assert all(word in verdict.sentence for word in words)


@pytest.mark.parametrize(
    ("text", "figures", "halves"),
    [
        ("13.60 g", [4], [0.005]),
        ("1360 mg", [4, 3], [0.0005, 0.005]),
        ("13000 mg", [5, 4, 3, 2], [0.0005, 0.005, 0.05, 0.5]),
        ("1.360e3 mg", [4], [0.0005]),
    ],
)
def test_a_zero_that_may_only_fill_is_read_both_ways(
    case: Case, text: str, figures: list[int], halves: list[float]
) -> None:
    typing = read(case, "oil_mass", text)
    assert isinstance(typing, Typing)
    assert [way.figures for way in typing.ways] == figures
    assert [way.half for way in typing.ways] == pytest.approx(halves)


@pytest.mark.parametrize(("proper", "figures"), [(3, 3), (2, 2), (1, 2), (7, 5)])
def test_filling_zeros_are_read_as_the_proper_figures_want(
    case: Case, proper: int, figures: int
) -> None:
    typing = read(case, "oil_mass", "13000 mg")
    assert isinstance(typing, Typing)
    assert typing.nearest_to(proper).figures == figures
    assert typing.nearest_to(None).figures == 5


@pytest.mark.parametrize(
    ("text", "figures"), [("1360 mg", [4, 3]), ("120 g", [3]), ("20 g", [2])]
)
def test_no_zero_is_taken_as_filling_where_two_figures_would_be_left(
    case: Case, text: str, figures: list[int]
) -> None:
    typing = read(case, "oil_mass", text)
    assert isinstance(typing, Typing)
    assert [way.figures for way in sure_ways(typing)] == figures
