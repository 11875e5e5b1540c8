"""What becomes of many draws."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, OLIVE_OIL, edit, make_graph
from workbook.draw.key import CourseKey
from workbook.draw.review import Review, print_review, review_draws
from workbook.errors import DrawError
from workbook.graph.compile import CompiledGraph

if TYPE_CHECKING:
    from pathlib import Path

KEY = CourseKey(bytes(32))


def students(count: int) -> list[str]:
    """Return so many ids."""
    return [str(number) for number in range(count)]


def test_every_draw_is_fair_or_refused_for_a_reason(tmp_path: Path) -> None:
    review = review_draws(CompiledGraph(make_graph(tmp_path)), KEY, students(2000))
    assert 0 < review.fair < 2000
    assert review.fair + sum(review.refused.values()) == 2000
    # A cylinder for 50 mL is read to a tenth of its lines, so one in ten lies on one.
    on_line = review.refused["'acid_volume' lies on a line of its scale."]
    assert on_line == pytest.approx(200, rel=0.4)


def test_a_slip_that_no_draw_shows_is_named(tmp_path: Path) -> None:
    text = (OLIVE_OIL / "lab.toml").read_text("utf-8").replace("0.911 g", "0.998 g")
    review = review_draws(CompiledGraph(make_graph(tmp_path, text)), KEY, students(100))
    assert ("oil_mass", "density_left_out") in review.never


def test_it_tells_how_often_each_reagent_runs_out(compiled: CompiledGraph) -> None:
    limits = review_draws(compiled, KEY, students(300)).limits
    # 14.5 mL of oil are 0.0149 mol, and need 0.0448 mol of lye; 10.0 mL hold 0.0610.
    assert ("limiting", "oil", 1.0) in limits
    trial = {species: share for step, species, share in limits if step == "trial"}
    assert set(trial) == {"oil", "lye"}
    assert sum(trial.values()) == pytest.approx(1.0)


def test_a_lab_without_a_fair_draw_is_told(tmp_path: Path) -> None:
    text = edit(CHALK, ("60 .. 99 %", "101 .. 110 %"))
    with pytest.raises(DrawError):
        review_draws(CompiledGraph(make_graph(tmp_path, text)), KEY, students(50))


def test_a_review_is_printed_the_commonest_reason_first() -> None:
    review = Review(
        name="my-lab",
        draws=10,
        refused={"A.": 1, "B.": 3},
        never=(("x", "ten"),),
        twins=(("y", "z", 0.5),),
        limits=(("which", "acid", 0.3),),
    )
    assert print_review(review).splitlines() == [
        "my-lab: 10 draws, 6 fair.",
        "       3 refused: B.",
        "       1 refused: A.",
        "     30% run out of acid first: which",
        "   never shown: x, ten",
        "     50% can't be told from another slip: y, z",
    ]
