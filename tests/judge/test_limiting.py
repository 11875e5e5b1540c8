"""What speaks for a reagent that does not run out; amounts of the trade notes."""

from __future__ import annotations

import pytest

from tests.support.slip import REFERENCE, build, solve
from workbook.graph.slip import SlipKind
from workbook.graph.slip_rule.sentence import ALONE, TOGETHER
from workbook.judge.case import Case, Convention
from workbook.judge.judge import judge
from workbook.wire.answer import Chosen
from workbook.wire.verdict import Outcome, Verdict

# Oil 0.02583 mol, 22.9 g, 25.0 mL; sodium hydroxide 0.1219 mol, 4.88 g, 20.0 mL. The
# oil needs 0.0775 mol of it, so the oil runs out. With 11.0 mL there are 0.0670 mol:
# now the sodium hydroxide runs out, and the oil has the fewer moles.


def choose(chosen: str, lye_ml: float, text: str = REFERENCE) -> Verdict:
    """Return the verdict on a choice, for so much lye [mL]."""
    graph = build(text)
    drawn = {"oil_volume": 25.0, "lye_volume": lye_ml, "dish": 40.0, "crude_mass": 25.0}
    values = solve(graph, drawn | {"planned_oil": 24.0, "share": 0.8})
    case = Case(graph, values, Convention())
    return judge(case, "limiting", {"limiting": Chosen((chosen,))})


def test_the_reagent_that_runs_out_is_right() -> None:
    assert choose("oil", 20.0).outcome is Outcome.RIGHT
    assert choose("lye", 11.0).outcome is Outcome.RIGHT


# Of two reagents with unlike coefficients the one with fewer moles would run out first
# too, if the coefficients were exchanged: 0.02583 / 3 and 0.0670 / 1.
BOTH = TOGETHER[frozenset({SlipKind.FEWEST_MOLES, SlipKind.COEFFICIENTS_EXCHANGED})]


def test_fewer_moles_are_told() -> None:
    found = choose("oil", 11.0)
    assert (found.outcome, found.sentence) == (Outcome.SLIP, BOTH)
    assert not found.value_holds


def test_exchanged_coefficients_are_told() -> None:
    # With 4.0 mL there are 0.0244 mol: fewer than of the oil, but 0.02583 / 3 is less.
    found = choose("oil", 4.0)
    expected = Outcome.SLIP, ALONE[SlipKind.COEFFICIENTS_EXCHANGED]
    assert (found.outcome, found.sentence) == expected


def test_fewer_moles_alone_are_told_where_exchanging_is_switched_off() -> None:
    off = f'{REFERENCE}\n[slips]\noff = ["coefficients_exchanged"]\n'
    assert choose("oil", 11.0, off).sentence == ALONE[SlipKind.FEWEST_MOLES]


def test_two_things_that_speak_for_it_are_none() -> None:
    # The sodium hydroxide has the smaller mass and the smaller volume.
    assert choose("lye", 20.0).outcome is Outcome.WRONG


@pytest.mark.parametrize(
    ("off", "kind"),
    [
        ("smallest_volume", SlipKind.SMALLEST_MASS),
        ("smallest_mass", SlipKind.SMALLEST_VOLUME),
    ],
)
def test_one_that_is_switched_off_leaves_the_other(off: str, kind: SlipKind) -> None:
    found = choose("lye", 20.0, f'{REFERENCE}\n[slips]\noff = ["{off}"]\n')
    assert found.sentence == ALONE[kind]
