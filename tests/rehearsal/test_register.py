"""Verdicts of a rehearsal, counted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.graph.slip import SlipKind
from workbook.rehearsal.register import Register
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome, Verdict

if TYPE_CHECKING:
    from workbook.graph.quantity import Graph
    from workbook.labfile.half import Ask

ANSWER = Typed("12.4 g")
MADE = SlipKind.OWN, "A mistake."


@pytest.fixture
def register(graph: Graph) -> Register:
    return Register(graph)


@pytest.fixture
def ask(graph: Graph) -> Ask:
    return next(ask for ask in graph.lab.public.asks if ask.of == "oil_mass")


@pytest.mark.parametrize(
    ("verdict", "is_wrong"),
    [
        (Verdict(Outcome.RIGHT, "", value_holds=True), False),
        (Verdict(Outcome.FIGURES, "", value_holds=True), False),
        (Verdict(Outcome.RIGHT, "", value_holds=True, method_holds=False), True),
        (Verdict(Outcome.FOLLOWS, "", value_holds=True), True),
        (Verdict(Outcome.WRONG, ""), True),
        (Verdict(Outcome.UNREAD, ""), True),
        (Verdict(Outcome.COARSE, ""), True),
    ],
)
def test_an_honest_answer_is_right_or_has_other_figures(
    register: Register, ask: Ask, verdict: Verdict, *, is_wrong: bool
) -> None:
    register.expect_right(ask, ANSWER, verdict)
    assert register.tally.honest_wrong.hits == is_wrong
    assert bool(register.tally.misses) == is_wrong


@pytest.mark.parametrize(
    ("verdict", "named", "misnamed"),
    [
        (Verdict(Outcome.SLIP, "A mistake. And more."), 1, 0),
        (Verdict(Outcome.SLIP, "Another."), 0, 1),
        (Verdict(Outcome.WRONG, "A mistake."), 0, 0),
    ],
)
def test_a_slip_is_named_by_its_own_sentence(
    register: Register, ask: Ask, verdict: Verdict, named: int, misnamed: int
) -> None:
    register.expect_named(ask, MADE, (ANSWER, verdict), is_shown=True)
    tally = register.tally
    assert (tally.named.hits, tally.misnamed.hits) == (named, misnamed)
    assert (tally.named.of, tally.misnamed.of) == (1, 1)


def test_a_slip_that_does_not_show_need_not_be_named(
    register: Register, ask: Ask
) -> None:
    verdict = Verdict(Outcome.WRONG, "No.")
    register.expect_named(ask, MADE, (ANSWER, verdict), is_shown=False)
    assert register.tally.named.of == 0
    assert not register.tally.misses


def test_a_number_in_a_sentence_is_a_leak_if_a_value_was_looked_at(
    register: Register,
) -> None:
    register.judged(ANSWER, Verdict(Outcome.WRONG, "It is 11.4 g."))
    register.judged(ANSWER, Verdict(Outcome.UNREAD, "Where 1 and 0 stand."))
    register.judged(ANSWER, Verdict(Outcome.WRONG, "Not 12.4 g."))
    assert (register.tally.leaks.hits, register.tally.leaks.of) == (1, 3)
    assert register.tally.attempts == 3
