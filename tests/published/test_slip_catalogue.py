"""
Every slip of the notes on the trade, section 1, and what of this workbook shows it.

The table has a row for each of the 150; some have two. How a slip shows: in a relation
of the reference case, or a reading of an instrument, with the value of the notes or of
their formula; by a rule that is tested in a lab of its own; in how a number was typed;
in a choice, a range, figures or a unit; in an answer that the author keys, or by a slip
of the author's own; and to a person.
"""

from __future__ import annotations

import csv
import re
from operator import itemgetter
from pathlib import Path

import pytest

import workbook
from tests.support.slip import build, wrong_values
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE
from workbook.judge.misreading import find_misreadings
from workbook.labfile.instrument import find_instrument

TABLE = Path(__file__).parents[1] / "data" / "slip_catalogue.csv"

with TABLE.open(encoding="utf-8", newline="") as opened:
    ROWS = list(csv.DictReader(opened))

#: How many slips each section of the notes has.
COUNTS = (16, 9, 5, 11, 11, 16, 14, 10, 16, 7, 8, 10, 12, 5)
SECTIONS = dict(zip("RUDSMANLYFEWXT", COUNTS, strict=True))

#: Modules in which slips are made or found.
SOURCES = ("graph/slip_rule/*.py", "judge/*.py")

IN_RELATIONS = [row for row in ROWS if row["shows"] == "relation"]
ON_INSTRUMENTS = [row for row in ROWS if row["shows"] == "reading"]
OF_A_KIND = [row for row in ROWS if row["kind"]]


def test_no_slip_of_the_notes_is_left_out() -> None:
    numbers = {
        f"{letter}{at:02}"
        for letter, most in SECTIONS.items()
        for at in range(1, most + 1)
    }
    assert len(numbers) == 150
    assert {row["number"] for row in ROWS} == numbers


@pytest.mark.parametrize("row", IN_RELATIONS, ids=itemgetter("number"))
def test_a_slip_leads_to_the_value_of_the_notes(row: dict[str, str]) -> None:
    found = wrong_values(build(), row["step"], SlipKind(row["kind"]))
    assert pytest.approx(float(row["value"]), rel=6e-4) in found


@pytest.mark.parametrize("row", ON_INSTRUMENTS, ids=itemgetter("number"))
def test_a_misreading_leads_to_the_value_of_the_notes(row: dict[str, str]) -> None:
    name, shown = row["step"].split(": ")
    found = find_misreadings(find_instrument(name), float(shown))
    of_kind = [float(each.value) for each in found if each.kind.value == row["kind"]]
    assert pytest.approx(float(row["value"]), abs=1e-4) in of_kind


@pytest.mark.parametrize("row", OF_A_KIND, ids=itemgetter("number"))
def test_a_slip_that_shows_has_a_sentence(row: dict[str, str]) -> None:
    assert ALONE[SlipKind(row["kind"])]


@pytest.mark.parametrize("kind", [*SlipKind])
def test_every_kind_of_slip_is_made_by_a_rule(kind: SlipKind) -> None:
    root = Path(workbook.__file__).parent
    texts = [p.read_text("utf-8") for each in SOURCES for p in root.glob(each)]
    assert any(re.search(rf"SlipKind\.{kind.name}\b", text) for text in texts)


def test_no_slip_is_open() -> None:
    # Where no sentence names one, the row says who or what finds it all the same.
    silent = {row["shows"] for row in ROWS if not row["kind"]}
    assert silent == {"answer", "figures", "own", "person", "unit"}
