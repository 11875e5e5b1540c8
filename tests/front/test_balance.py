"""The balance of the steps of a mechanism."""

from __future__ import annotations

from tests.front.stage import LOSES, MEETS, PARTS
from workbook.front.balance import net, say_atoms, show_balance, write_charge
from workbook.wire.sheet import Side


def test_each_step_tells_its_change_its_atoms_and_its_charges() -> None:
    shown = show_balance([PARTS, LOSES])
    assert '<th scope="row">1</th>' in shown
    assert '<span class="wb-unseen">A B gives A plus and B minus</span>' in shown
    assert "<td>kept</td><td>0</td><td>0</td>" in shown


def test_a_charge_that_is_not_kept_is_told_in_words() -> None:
    shown = show_balance([LOSES])
    assert '<td>+1</td><td>0 <em class="wb-point">not kept</em></td>' in shown


def test_atoms_that_are_lost_or_come_from_nowhere_are_told() -> None:
    takes, gives = Side({}, {"C": 1, "H": 4}, 0), Side({}, {"H": 3, "O": 1}, 0)
    assert say_atoms(takes, gives) == "1 C lost, 1 H lost, 1 O gained"
    assert say_atoms(takes, takes) == "kept"


def test_what_one_step_forms_and_another_uses_is_left_out_of_the_sum() -> None:
    assert net([PARTS, MEETS]) == ({"AB": 1, "C": 1}, {"B⁻": 1, "AC⁺": 1})


def test_the_sum_stands_under_the_table() -> None:
    shown = show_balance([PARTS, MEETS])
    assert "use <strong>AB + C</strong> and form <strong>B⁻ + AC⁺</strong>" in shown


def test_nothing_is_shown_while_nothing_is_placed() -> None:
    assert show_balance([]) == ""


def test_a_charge_has_a_true_minus() -> None:
    assert write_charge(-2) == "−2"
