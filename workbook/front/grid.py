"""A table with a place to answer in its cells."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from importlib.resources import files
from typing import TYPE_CHECKING, Literal

from anywidget import AnyWidget
from traitlets import Dict

from workbook.front.widget import make

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from workbook.front.bell import Bell

#: How a ticked box stands among the values.
TICKED = "yes"


@dataclass(frozen=True)
class Cell:
    """One cell: a text that is shown, or a place to answer."""

    kind: Literal["shown", "text", "tick", "pick"]
    #: By what its value is known.
    key: str = ""
    #: What a screen reader says of it.
    label: str = ""
    #: What is shown.
    text: str = ""
    #: Shown beside the place.
    unit: str = ""
    #: What can be picked: value and text.
    options: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Row:
    """A row with its heading."""

    label: str
    cells: tuple[Cell, ...]


class GridView(AnyWidget):
    """
    The table in the browser.

    Like the look it has no behaviour of its own: plain widgets laid side by side are
    no table to a screen reader, so one widget draws the whole.
    """

    _esm = (files("workbook.front") / "grid.js").read_text(encoding="utf-8")
    spec = Dict().tag(sync=True)
    values = Dict().tag(sync=True)


class Grid:
    """
    A table with a heading for each row and column.

    Parameters
    ----------
    head : sequence of str
        The headings of the columns, that of the row headings first.
    rows : sequence of Row
        From top to bottom.
    bell : Bell
        Rung when a value changes, and at Enter in a text.
    """

    def __init__(self, head: Sequence[str], rows: Sequence[Row], bell: Bell) -> None:
        self._bell = bell
        self._keys = [c.key for row in rows for c in row.cells if c.kind != "shown"]
        spec = {"head": list(head), "rows": [asdict(row) for row in rows]}
        self.view = make(GridView, spec=spec, values={})
        self.view.observe(lambda _: bell.change(), names="values")
        self.view.on_msg(self._hear)

    @property
    def values(self) -> dict[str, str]:
        """What stands in each place, by its key; the empty text where nothing does."""
        held: Mapping[str, str] = self.view.values
        return {key: str(held.get(key, "")) for key in self._keys}

    @values.setter
    def values(self, values: Mapping[str, str]) -> None:
        known = {key: values[key] for key in self._keys if values.get(key)}
        self.view.values = known

    def _hear(self, _: object, content: dict[str, object], __: object) -> None:
        """React to what the browser tells of the table."""
        if content.get("event") == "submit":
            told = content.get("values")
            if isinstance(told, dict):
                self.values = {str(key): str(text) for key, text in told.items()}
            self._bell.enter()
