"""Counting atoms through brackets."""

from __future__ import annotations

from workbook.matter.part import Atom, Group, count_atoms


def test_counts_of_nested_brackets_multiply() -> None:
    # Fe4[Fe(CN)6]3, Prussian blue: 4 + 3 iron, 18 carbon, 18 nitrogen.
    cyanide = Group("(", (Atom("C"), Atom("N")), 6)
    blue = (Atom("Fe", 4), Group("[", (Atom("Fe"), cyanide), 3))
    assert count_atoms(blue) == {"Fe": 7, "C": 18, "N": 18}


def test_an_element_that_stands_twice_is_added_up() -> None:
    # CH3CO2H
    acid = (Atom("C"), Atom("H", 3), Atom("C"), Atom("O", 2), Atom("H"))
    assert count_atoms(acid) == {"C": 2, "H": 4, "O": 2}


def test_nothing_has_no_atoms() -> None:
    assert count_atoms(()) == {}
