"""What an author adds to the known mistakes, and what is wrong with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, find_mistakes
from tests.support.slip import REFERENCE, build, slips, wrong_values
from workbook.graph.slip import SlipKind, sentence_of, slips_of
from workbook.graph.slip_rule.author import own_slips

if TYPE_CHECKING:
    from pathlib import Path

OWN = """
[slips.own.foam]
of = "soap_mass"
is = "crude_mass - dish"
says = "You weighed the foam."
"""

END = "[molar_mass.salt]"


def test_an_authors_own_mistake_is_among_the_slips() -> None:
    # By hand: 25.00 - 40.00 g.
    graph = build(REFERENCE + OWN)
    assert wrong_values(graph, "soap_mass", SlipKind.OWN) == [pytest.approx(-15.00)]
    assert (
        slips(graph, "soap_mass", SlipKind.OWN)[0].sentence == "You weighed the foam."
    )
    assert len(list(own_slips(graph.lab, "soap_mass"))) == 1


def test_a_species_stands_for_its_molar_mass() -> None:
    own = OWN.replace("soap_mass", "soap").replace(
        "crude_mass - dish", "oil.molar_mass"
    )
    assert len(slips(build(REFERENCE + own), "soap.molar_mass", SlipKind.OWN)) == 1


def test_a_kind_that_is_switched_off_is_not_looked_for() -> None:
    graph = build(REFERENCE + '\n[slips]\noff = ["tare_left_on", "cut_off"]\n')
    assert slips(graph, "soap_mass", SlipKind.TARE_LEFT_ON) == []
    assert slips(graph, "soap_mass", SlipKind.TARE_ADDED) != []
    assert sentence_of(graph, SlipKind.CUT_OFF) == ""


def test_a_sentence_can_be_reworded() -> None:
    graph = build(REFERENCE + '\n[slips.says]\ntare_left_on = "Take the dish off."\n')
    (slip,) = slips(graph, "soap_mass", SlipKind.TARE_LEFT_ON)
    assert slip.sentence == "Take the dish off."


def test_a_mistake_that_rests_on_its_own_answer_is_left_out() -> None:
    own = OWN.replace("crude_mass - dish", "2 * soap_mass")
    graph = build(REFERENCE + own)
    assert SlipKind.OWN not in {slip.kind for slip in slips_of(graph, "soap_mass")}


@pytest.mark.parametrize(
    ("table", "at", "says"),
    [
        ('[slips]\noff = ["tare_left_onn"]', 'off = ["tare_left_onn"]', "Did you mean"),
        ('[slips.says]\nten = "Oh."\ntenn = "Oh."', 'tenn = "Oh."', "Did you mean"),
        ('[slips]\noff = ["zzz"]', 'off = ["zzz"]', "Known are acid_for_salt, "),
        (
            '[slips.own.a]\nof = "nothing"\nis = "dish"\nsays = "Oh."',
            'of = "nothing"',
            "no step asks",
        ),
        (
            '[slips.own.a]\nof = "dish"\nis = "dish"\nsays = "Oh."',
            'of = "dish"',
            "no step asks",
        ),
        (
            '[slips.own.a]\nof = "chalk_amount"\nis = "dishh"\nsays = "Oh."',
            'is = "dishh"',
            "Did you mean 'dish'?",
        ),
    ],
)
def test_a_mistake_in_the_table_is_found(
    tmp_path: Path, table: str, at: str, says: str
) -> None:
    assert END in CHALK
    (found,) = find_mistakes(tmp_path, (END, f"{table}\n\n{END}"))
    assert found.at == at
    assert says in found.sentence
