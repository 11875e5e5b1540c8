"""The place to answer a reading: the instrument as it shows, and one box."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, HBox
from typing_extensions import override

from workbook.front.box import BoxPad
from workbook.front.drawing import is_plain
from workbook.front.widget import make

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.front.bell import Bell
    from workbook.wire.sheet import ReadingStep

#: Widths of a picture [% of its first width].
SIZES = (100, 150, 225, 340)


class ReadingPad(BoxPad):
    """
    The instrument, what is seen on it, and a text box for the reading.

    Parameters
    ----------
    step : ReadingStep
        As it stands on the sheet.
    bell : Bell
        Rung when the answer changes, or is to be checked.
    """

    def __init__(self, step: ReadingStep, bell: Bell) -> None:
        super().__init__(f"Your reading, with its unit ({step.unit})", bell)
        self._step = step
        self._size = 0
        self._has_picture = is_plain(step.picture)
        self.face = make(HTML, self._show())
        self.smaller, self.larger = (
            make(Button, description=f"{word} picture")
            for word in ("Smaller", "Larger")
        )
        self.smaller.on_click(lambda _: self.resize(-1))
        self.larger.on_click(lambda _: self.resize(+1))
        self.sizes = make(HBox, [self.smaller, self.larger], css="wb-sizes")

    @property
    @override
    def body(self) -> tuple[Widget, ...]:
        """The instrument, its size where it is a picture, and the box."""
        sizes = (self.sizes,) if self._has_picture else ()
        return (self.face, *sizes, self.entry.box)

    def resize(self, by: int) -> None:
        """
        Show the picture in another size; at either end it stays as it is.

        Parameters
        ----------
        by : int
            Steps up or down `SIZES`.
        """
        self._size = min(max(self._size + by, 0), len(SIZES) - 1)
        self.face.value = self._show()

    def _show(self) -> str:
        name = f'<p class="wb-note">{escape(self._step.instrument)}</p>'
        words = f'<p class="wb-seen">{escape(self._step.seen)}</p>'
        if not self._has_picture:
            return f'<div class="wb-instrument">{name}{words}</div>'
        size = SIZES[self._size]
        return (
            f'<div class="wb-instrument wb-pictured">{name}'
            '<div class="wb-view" role="group" aria-label="Picture" tabindex="0">'
            f'<div class="wb-size-{size}">{self._step.picture}</div></div>'
            f"<details><summary>The same in words</summary>{words}</details></div>"
        )
