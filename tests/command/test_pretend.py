"""``workbook pretend``, and marking what it wrote."""

from __future__ import annotations

from pathlib import Path

from tests.support.command import rows, run
from tests.support.soap import make_course


def test_a_simulated_class_can_be_marked_at_once(tmp_path: Path) -> None:
    course = make_course(tmp_path)
    ids = [f"s{number}" for number in range(12)]
    roster = "".join(f"{student},\n" for student in ids)
    (tmp_path / "roster.csv").write_text(f"student,name\n{roster}")
    made = run("pretend", course, "--to", "in")
    assert made.exit_code == 0
    assert "Next: workbook mark" in made.output
    run("mark", course, "--handins", "in", "--to", "marks")
    points = [float(row["points"]) for row in rows(Path("marks/marks.csv"))]
    assert len(points) == len(ids)
    # Most of a class that works honestly earns most of 63 points.
    assert sorted(points)[6] > 40
