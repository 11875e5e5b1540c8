"""How a place to answer tells its card that something happened."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable


def do_nothing() -> None:
    """Stand for a reaction that nobody has asked for yet."""


@dataclass
class Bell:
    """What to call; a card sets both once everything kept has been put back."""

    #: After every change of the answer.
    change: Callable[[], None] = do_nothing
    #: When the student asks for a verdict from the keyboard.
    enter: Callable[[], None] = do_nothing
