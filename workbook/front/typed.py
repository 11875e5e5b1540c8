"""
What stands in the boxes of a card, told in one message ahead of the boxes themselves.

While a kernel is busy, a widget holds its value back; a message it does not.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import Box, Text, Textarea

from workbook.front.grid import GridView

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from ipywidgets import Widget


def take_typed(
    widgets: Iterable[Widget], typed: Sequence[object], *, is_shown: bool
) -> bool:
    """
    Put what was told into the boxes that it stands in.

    Parameters
    ----------
    widgets : iterable of Widget
        The body of a card, from top to bottom.
    typed : sequence
        The content of each box and each cell of a table, as the page shows them.
    is_shown : bool
        True where the page shows it already, so that it is not sent back.

    Returns
    -------
    bool
        False where there are other boxes than the page had; then nothing is changed.
    """
    places = list(_list_places(widgets))
    if len(places) != len(typed) or not all(isinstance(each, str) for each in typed):
        return False
    cells: dict[GridView, dict[str, str]] = {}
    for (widget, key), text in zip(places, map(str, typed), strict=True):
        if isinstance(widget, GridView):
            cells.setdefault(widget, {})[key] = text
        elif widget.value != text:
            _put(widget, "value", text, is_shown=is_shown)
    for grid, values in cells.items():
        held = {key: text for key, text in values.items() if text}
        if grid.values != held:
            _put(grid, "values", held, is_shown=is_shown)
    return True


def _put(widget: Widget, name: str, value: object, *, is_shown: bool) -> None:
    if is_shown:
        # As the browser does it, so that it is not sent back.
        widget.set_state({name: value})
    else:
        setattr(widget, name, value)


def _list_places(widgets: Iterable[Widget]) -> Iterator[tuple[Widget, str]]:
    """Give each box, and each cell of a table by its key, in the order of the page."""
    for widget in widgets:
        if isinstance(widget, Text | Textarea):
            yield widget, ""
        elif isinstance(widget, GridView):
            yield from ((widget, key) for key in _list_keys(widget))
        elif isinstance(widget, Box):
            yield from _list_places(widget.children)


def _list_keys(grid: GridView) -> Iterator[str]:
    rows: list[dict[str, list[dict[str, str]]]] = grid.spec["rows"]
    for row in rows:
        for cell in row["cells"]:
            if cell["kind"] != "shown":
                yield cell["key"]
