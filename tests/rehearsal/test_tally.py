"""Counting attempts."""

from __future__ import annotations

from workbook.rehearsal.tally import Count, Tally


def test_a_share_is_that_of_hits() -> None:
    count = Count()
    for is_hit in (True, False, False, True):
        count.add(is_hit=is_hit)
    assert (count.hits, count.of, count.share) == (2, 4, 0.5)


def test_the_share_of_nothing_is_nothing() -> None:
    assert Count().share == 0


def test_a_miss_is_counted_and_its_first_example_kept() -> None:
    tally = Tally()
    for example in ("first", "second"):
        tally.miss("honest", "oil_mass", "wrong", example)
    key = ("honest", "oil_mass", "wrong")
    assert tally.misses[key] == 2
    assert tally.examples[key] == "first"


def test_two_tallies_count_apart() -> None:
    one, other = Tally(), Tally()
    one.named.add(is_hit=True)
    assert other.named.of == 0
