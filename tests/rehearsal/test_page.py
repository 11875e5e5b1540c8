"""The figures of a rehearsal, each beside its reach."""

from __future__ import annotations

import pytest

from workbook.rehearsal.page import print_page, tabulate
from workbook.rehearsal.tally import Count, Tally


def reached(tally: Tally) -> dict[str, bool | None]:
    return {row.figure: row.is_reached for row in tabulate(tally)}


# The reaches of the issue: none of honest, 95 % named, 0.5 % misnamed, 1 % of guesses,
# all that follows, no variant, no number.
@pytest.mark.parametrize(
    ("field", "count", "figure"),
    [
        ("honest_wrong", Count(1, 100_000), "honest attempts judged wrong"),
        ("named", Count(949, 1000), "slips that a number can show, named rightly"),
        ("misnamed", Count(6, 1000), "single slips named wrongly"),
        ("guesses_named", Count(11, 1000), "guesses that get a slip's sentence"),
        ("guesses_right", Count(50, 1000), "guesses judged right"),
        ("followed", Count(99, 100), "right answers after a slip that earn the step"),
        ("variants_inside", Count(1, 10), "variants with a slip inside the band"),
        ("leaks", Count(1, 10), "sentences that tell a number of the key"),
    ],
)
def test_a_figure_beyond_its_reach_is_missed(
    field: str, count: Count, figure: str
) -> None:
    good = Tally(named=Count(95, 100))
    assert set(reached(good).values()) == {True}
    setattr(good, field, count)
    assert [each for each, is_so in reached(good).items() if not is_so] == [figure]


def test_a_page_says_what_was_missed_with_an_example() -> None:
    tally = Tally(attempts=7, honest_wrong=Count(2, 7))
    for example in ("'12.4 g': No.", "'12.5 g': No."):
        tally.miss("honest", "oil_mass", "wrong", example)
    page = print_page("my-lab", tally)
    assert page.startswith("my-lab: 7 attempts\n")
    assert "MISSED" in page
    assert "Honest, and judged wrong:\n      2  oil_mass: wrong\n" in page
    assert "'12.4 g': No." in page


def test_a_long_list_ends_with_what_is_left_out() -> None:
    tally = Tally()
    for number in range(15):
        tally.miss("twins", f"step-{number:02}", "a = b", "x")
    assert "      3  of 3 further kinds" in print_page("my-lab", tally)
