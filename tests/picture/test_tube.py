"""Lines and numbers on a tube."""

from __future__ import annotations

from tests.support.eye import find_class, numbers_in, parse
from workbook.labfile.instrument import Kind
from workbook.picture.ink import element
from workbook.picture.scale import Length, Line
from workbook.picture.tube import Tube, draw_lines

TUBE = Tube(left=10, right=110, climb=5, size=12, stroke=1)
LINES = (
    Line(50, Length.LONG, "7"),
    Line(60, Length.SHORT, ""),
    Line(70, Length.MIDDLE, ""),
)


def draw(kind: Kind, lines: tuple[Line, ...] = LINES) -> str:
    return element("svg", draw_lines(TUBE, kind, lines))


def ends_of_lines(kind: Kind) -> list[tuple[float, float]]:
    """Return where the short, the middle and the long line begin and end."""
    drawn = parse(draw(kind))
    found = []
    for length in Length:
        (path,) = find_class(drawn, f"wb-{length.value}")
        start, _, end = numbers_in(path.get("d", ""))
        found.append((start, end))
    return found


def test_lines_of_a_cylinder_begin_at_the_wall_and_grow_in_length() -> None:
    short, middle, long = ends_of_lines(Kind.CYLINDER)
    assert short[0] == middle[0] == long[0] == TUBE.left
    assert short[1] < middle[1] < long[1] < TUBE.right


def test_lines_of_a_thermometer_cross_its_bore() -> None:
    lines = ends_of_lines(Kind.THERMOMETER)
    assert all(start < 60 < end for start, end in lines)
    assert lines[0][0] > lines[1][0] > lines[2][0]


def test_a_number_stands_at_the_height_of_its_line() -> None:
    (number,) = parse(draw(Kind.CYLINDER)).iter("text")
    # Digits are some 0.72 of the size high, and stand on their baseline.
    assert abs(float(number.get("y", "nan")) - 0.36 * TUBE.size - 50) < 0.01
    assert number.text == "7"


def test_without_numbers_there_is_no_group_of_them() -> None:
    assert "wb-numbers" not in draw(Kind.CYLINDER, LINES[1:])
