"""What every kind of step offers its card: a place to answer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol, runtime_checkable

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.wire.answer import Answer, Noted


class Pad(Protocol):
    """The place to answer one step."""

    @property
    def body(self) -> tuple[Widget, ...]:
        """The widgets, from top to bottom."""

    def read(self) -> Answer:
        """
        Return what stands there now.

        Returns
        -------
        Answer
            Of this step's kind.
        """

    def write(self, answer: Answer) -> None:
        """
        Put an earlier answer back.

        Parameters
        ----------
        answer : Answer
            Of this step's kind; any other is left out.
        """


@runtime_checkable
class Doing(Protocol):
    """A place to answer whose button does something else than check."""

    #: What the button says.
    deed: str


@runtime_checkable
class Closing(Protocol):
    """A place to answer that takes one answer, and no other after it."""

    def close(self, answer: Answer) -> None:
        """
        Show the answer that stands, and take no other.

        Parameters
        ----------
        answer : Answer
            Of this step's kind.
        """


@runtime_checkable
class Fixing(Protocol):
    """A place to answer that takes one answer, which a reason alone changes."""

    def fix(self, noted: Noted | None) -> None:
        """
        Show the answer that stands.

        Parameters
        ----------
        noted : Noted or None
            None while nothing stands.
        """


@runtime_checkable
class Pointing(Protocol):
    """A place to answer that has parts, one of which a verdict may speak of."""

    def point(self, at: int | None) -> None:
        """
        Mark one part.

        Parameters
        ----------
        at : int or None
            Index of a line or a factor; None takes the mark away.
        """
