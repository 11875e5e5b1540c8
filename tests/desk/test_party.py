"""The parties of a class that fit on one table."""

from __future__ import annotations

from workbook.desk.party import MOST, split_roster
from workbook.labfile.roster import Student


def make_students(number: int, section: str = "") -> list[Student]:
    return [Student(f"{section}{at:03}", "Ada", section) for at in range(number)]


def test_a_class_that_fits_is_one_party() -> None:
    roster = make_students(MOST // 2, "a") + make_students(MOST // 2, "b")
    (party,) = split_roster(roster)
    assert party.students == tuple(roster)


def test_a_large_class_is_split_by_section_and_then_by_number() -> None:
    roster = make_students(60, "b") + make_students(24, "a")
    assert [party.name for party in split_roster(roster)] == [
        "Section b: b000 to b049 (50)",
        "Section b: b050 to b059 (10)",
        "Section a: a000 to a023 (24)",
    ]


def test_without_sections_it_is_split_by_number() -> None:
    names = [party.name for party in split_roster(make_students(51))]
    assert names == ["000 to 049 (50)", "050 to 050 (1)"]


def test_everybody_is_in_one_party() -> None:
    roster = make_students(130, "a") + make_students(7) + make_students(9, "a")
    found = [each for party in split_roster(roster) for each in party.students]
    assert sorted(found) == sorted(roster)
