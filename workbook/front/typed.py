"""
What stands in the places of a card, told in one message ahead of the widgets' own.

While a kernel is busy, a widget holds its value back; a message it does not.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import Box, Checkbox, Dropdown, RadioButtons, Text, Textarea

from workbook.front.grid import TICKED, GridView

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from ipywidgets import Widget


def take_typed(
    widgets: Iterable[Widget], typed: Sequence[object], *, is_shown: bool
) -> bool:
    """
    Put what was told into the places that it stands in.

    Parameters
    ----------
    widgets : iterable of Widget
        The body of a card, from top to bottom.
    typed : sequence
        The content of each box, list, tick and cell of a table, as the page shows them.
    is_shown : bool
        True where the page shows it already, so that it is not sent back.

    Returns
    -------
    bool
        False where there are other places than the page had; then nothing is changed.
    """
    places = list(_list_places(widgets))
    if len(places) != len(typed) or not all(isinstance(each, str) for each in typed):
        return False
    told: dict[Widget, dict[str, str]] = {}
    for (widget, key), text in zip(places, map(str, typed), strict=True):
        told.setdefault(widget, {})[key] = text
    for widget, texts in told.items():
        name, value = _read(widget, texts)
        # What can't be changed any more is not changed by an old message either.
        is_fixed = getattr(widget, "disabled", False)
        if not is_fixed and getattr(widget, name) != value:
            _put(widget, name, value, is_shown=is_shown)
    return True


def _put(widget: Widget, name: str, value: object, *, is_shown: bool) -> None:
    if is_shown:
        # As the browser does it, so that it is not sent back.
        widget.set_state({name: value})
    else:
        setattr(widget, name, value)


def _read(widget: Widget, texts: Mapping[str, str]) -> tuple[str, object]:
    """Return what a widget holds after what was told of it, by its trait."""
    filled = {key: text for key, text in texts.items() if text}
    text = texts.get("", "")
    match widget:
        case GridView():
            held: tuple[str, object] = "values", filled
        case RadioButtons():
            held = "index", next(map(int, filled), None)
        case Dropdown():
            shown = [str(option[0]) for option in widget.options]
            held = "index", shown.index(text) if text in shown else None
        case Checkbox():
            held = "value", text == TICKED
        case _:
            held = "value", text
    return held


def _list_places(widgets: Iterable[Widget]) -> Iterator[tuple[Widget, str]]:
    """Give each place by its widget and its key there, in the order of the page."""
    for widget in widgets:
        match widget:
            case Text() | Textarea() | Checkbox() | Dropdown():
                yield widget, ""
            case RadioButtons():
                yield from ((widget, str(at)) for at in range(len(widget.options)))
            case GridView():
                yield from ((widget, key) for key in _list_keys(widget))
            case Box():
                yield from _list_places(widget.children)


def _list_keys(grid: GridView) -> Iterator[str]:
    rows: list[dict[str, list[dict[str, str]]]] = grid.spec["rows"]
    for row in rows:
        for cell in row["cells"]:
            if cell["kind"] != "shown":
                yield cell["key"]
