"""A scale on its tube, with what stands in it: the same at every magnification."""

from __future__ import annotations

from dataclasses import dataclass

from workbook.labfile.instrument import Kind
from workbook.picture.ink import element, group, letter, trace
from workbook.picture.scale import Length, Line

#: Where in the tube's width a line of each length begins and ends [-]: from the wall
#: to past the lowest point of a meniscus, or across the bore of a thermometer.
_FROM_THE_WALL = {
    Length.SHORT: (0.0, 0.44),
    Length.MIDDLE: (0.0, 0.54),
    Length.LONG: (0.0, 0.64),
}
_ACROSS_THE_BORE = {
    Length.SHORT: (0.33, 0.57),
    Length.MIDDLE: (0.21, 0.57),
    Length.LONG: (0.09, 0.57),
}


@dataclass(frozen=True, slots=True)
class Tube:
    """Where a tube stands, and how finely it is drawn."""

    left: float
    right: float
    #: How far the liquid climbs the wall.
    climb: float
    #: Size of its numbers.
    size: float
    #: Width of its lines.
    stroke: float

    @property
    def width(self) -> float:
        """From wall to wall."""
        return self.right - self.left


def draw_lines(tube: Tube, kind: Kind, lines: tuple[Line, ...]) -> str:
    """
    Return the lines of a scale, and their numbers.

    Parameters
    ----------
    tube : Tube
        What they are printed on.
    kind : Kind
        What instrument it is.
    lines : tuple of Line
        Where they stand.

    Returns
    -------
    str
        A path for each length.
    """
    runs = _ACROSS_THE_BORE if kind is Kind.THERMOMETER else _FROM_THE_WALL
    paths = [_draw_length(tube, lines, length, runs[length]) for length in Length]
    x = tube.left + (runs[Length.LONG][1] + 0.04) * tube.width
    numbers = [
        letter(line.label, x, line.y + tube.size * 0.36) for line in lines if line.label
    ]
    if numbers:
        size = tube.size
        paths.append(group("wb-numbers", numbers, fill="currentColor", font_size=size))
    return "".join(paths)


def _draw_length(
    tube: Tube, lines: tuple[Line, ...], length: Length, run: tuple[float, float]
) -> str:
    start, end = (tube.left + share * tube.width for share in run)
    data = [
        trace("M", start, line.y, "H", end) for line in lines if line.length is length
    ]
    width = tube.stroke * (1.25 if length is Length.LONG else 1)
    return element(
        "path",
        class_=f"wb-{length.value}",
        d="".join(data),
        stroke="currentColor",
        stroke_width=width,
    )
