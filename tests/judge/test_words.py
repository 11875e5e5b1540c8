"""No sentence to a student holds a digit of the key."""

from __future__ import annotations

import random
import re
from typing import TYPE_CHECKING

from tests.support.student import CHAINS, RIGHT, answer
from workbook.judge import words
from workbook.judge.judge import judge
from workbook.wire.answer import Answer, Built, Chosen, Derived, Placed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.judge.case import Case

#: Wrong answers that are tried, over all steps.
TRIES = 500

#: So many figures of a value in a row give it away.
TELLING = 3


def digits(text: str) -> str:
    """Return the digits of a number, leading zeros and the point left out."""
    return re.sub(r"\D", "", text).lstrip("0")


def secrets_of(case: Case) -> set[str]:
    """Return the first figures of every value of a student that is not printed."""
    graph = case.graph
    printed = {*graph.lab.public.givens, *graph.lab.public.instruments}
    return {
        digits(f"{graph.quantities[name].from_base(value):.12f}")[:TELLING]
        for name, value in case.values.items()
        if name not in printed and graph.quantities[name].constant is None
    }


def public_words(case: Case) -> list[str]:
    """Return what a sheet shows anyway: names of substances with their percentages."""
    public = case.graph.lab.public
    names = [each.name for each in public.species.values()]
    names += [each.solution.name for each in public.species.values() if each.solution]
    return sorted(names, key=len, reverse=True)


def wrong_answers(case: Case) -> Iterator[tuple[str, Answer]]:
    """Give wrong answers of every kind to every step, the same in each run."""
    chance = random.Random(7)  # noqa: S311 - answers are made up, nothing is hidden
    units = [text.rpartition(" ")[2] for text in RIGHT.values()]
    for number in range(TRIES):
        step = list(RIGHT)[number % len(RIGHT)]
        value = case.values[step] * chance.choice([0.3, 0.9, 1.08, 1.5, 3.0, -1.0])
        unit = chance.choice([RIGHT[step].rpartition(" ")[2], chance.choice(units)])
        result = f"{value:.{chance.randint(1, 8)}g} {unit}"
        given = answer(step, result)
        if isinstance(given, Built) and chance.random() < 0.7:
            given = Built(tuple(random_chain(chance)), RIGHT[step])
        if isinstance(given, Derived):
            given = Derived(random_lines(chance), result)
        yield step, given


def random_chain(chance: random.Random) -> Iterator[Placed]:
    factors = ["oil.density", "oil.molar_mass", "lye.mass_fraction", "ratio(lye, oil)"]
    for _ in range(chance.randint(0, 3)):
        yield Placed(chance.choice(factors), turned=chance.random() < 0.5)


def random_lines(chance: random.Random) -> tuple[str, ...]:
    lines = ["x = oil/3 - C3H5", "soap = x + K", "x = (oil", "soap = x", "y = x", "x"]
    return tuple(chance.sample(lines, chance.randint(0, 3)))


def test_no_sentence_on_a_wrong_answer_holds_a_digit_of_the_key(
    drawn_class: list[Case],
) -> None:
    found, outcomes = [], set()
    case = drawn_class[0]
    secrets, shown = secrets_of(case), public_words(case)
    for step, given in wrong_answers(case):
        verdict = judge(case, step, {step: given})
        outcomes.add(verdict.outcome)
        sentence = verdict.sentence
        for known in shown:
            sentence = sentence.replace(known, "")
        runs = [digits(run) for run in re.findall(r"\d[\d.]*", sentence)]
        found += [(step, s, verdict) for s in secrets if any(s in run for run in runs)]
    assert found == []
    assert outcomes >= {Outcome.WRONG, Outcome.DIMENSION, Outcome.UNREAD}
    assert set(CHAINS) <= set(RIGHT)


def test_no_sentence_names_the_right_options(drawn_class: list[Case]) -> None:
    case = drawn_class[0]
    for step, right in case.graph.lab.key.right.items():
        sentence = judge(case, step, {step: Chosen(("none",))}).sentence
        assert not [option for option in right if option in sentence]


def test_every_sentence_is_one() -> None:
    said = [
        text
        for name, text in vars(words).items()
        if name.isupper() and name != "TYPE_CHECKING" and isinstance(text, str)
    ]
    assert len(said) > 30
    assert [
        text for text in said if not text.endswith((".", "{hint}", "{reason}"))
    ] == [words.LINE_NO_EQUALITY]


def test_a_fault_is_called_by_its_label(case: Case) -> None:
    assert words.follows(case, "oil_mass") == (
        "By your own earlier values it is right, and earns the step. The mass of olive "
        "oil still needs another look."
    )


def test_no_sentence_says_the_word_of_its_outcome_again() -> None:
    said = {name: text for name, text in vars(words).items() if isinstance(text, str)}
    doubled = (
        "Right",
        "Agrees",
        "Not yet",
        "Not noted",
        "Nothing was",
        "Too few",
        "Kept",
    )
    assert [name for name, text in said.items() if text.startswith(doubled)] == []
