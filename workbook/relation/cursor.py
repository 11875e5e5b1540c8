"""A place in the pieces of a text, and the bounds that a hostile text runs into."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING, NoReturn, TypeVar

from workbook.errors import RelationError
from workbook.relation.lexeme import Kind, Lexeme, split

if TYPE_CHECKING:
    from collections.abc import Iterator

LENGTH_LIMIT = 200
#: Brackets, functions, minus signs and powers within each other.
DEPTH_LIMIT = 24
NODE_LIMIT = 120

_Made = TypeVar("_Made")


class Cursor:
    """
    Goes through the pieces of a text from left to right.

    Parameters
    ----------
    text : str
        A relation, or an equality of two.
    student : bool
        True for what a student types, False for a lab file.

    Raises
    ------
    RelationError
        If the text is too long, or holds a piece that can't be read.
    """

    def __init__(self, text: str, *, student: bool) -> None:
        if len(text) > LENGTH_LIMIT:
            reason = (
                f"This is {len(text)} characters long and {LENGTH_LIMIT} are the "
                "most. Write it in smaller parts."
            )
            raise RelationError(text, LENGTH_LIMIT, reason)
        self.student = student
        self._text = text
        self._pieces = split(text, student=student)
        self._at = 0
        self._depth = 0
        self._nodes = 0

    @property
    def ahead(self) -> Lexeme:
        """The next piece."""
        return self._pieces[self._at]

    @property
    def before(self) -> Lexeme | None:
        """The piece that was taken last; None at the start."""
        return self._pieces[self._at - 1] if self._at else None

    def sees(self, sign: str) -> bool:
        """
        Return whether a sign comes next.

        Parameters
        ----------
        sign : str
            The sign.

        Returns
        -------
        bool
            False for any other piece.
        """
        return self.ahead.kind is Kind.SIGN and self.ahead.text == sign

    def take(self) -> Lexeme:
        """
        Return the next piece, and step over it.

        Returns
        -------
        Lexeme
            Never the end, which stays ahead.
        """
        piece = self.ahead
        self._at += piece.kind is not Kind.END
        return piece

    def made(self, node: _Made) -> _Made:
        """
        Count a node of the tree, and give it back.

        Parameters
        ----------
        node : Node
            The node.

        Returns
        -------
        Node
            The same.

        Raises
        ------
        RelationError
            If there are too many.
        """
        self._nodes += 1
        if self._nodes > NODE_LIMIT:
            self.refuse(
                self.ahead,
                f"There are more than {NODE_LIMIT} numbers, names and signs here. "
                "Write it in smaller parts.",
            )
        return node

    @contextmanager
    def within(self, piece: Lexeme) -> Iterator[None]:
        """
        Go one level deeper for the time of a ``with`` statement.

        Parameters
        ----------
        piece : Lexeme
            The piece that opens the level.

        Yields
        ------
        None
            Once.

        Raises
        ------
        RelationError
            If that is too deep.
        """
        self._depth += 1
        if self._depth > DEPTH_LIMIT:
            self.refuse(
                piece,
                f"At character {piece.position + 1} brackets, minus signs and powers "
                f"stand more than {DEPTH_LIMIT} deep. Write it in smaller parts.",
            )
        yield
        self._depth -= 1

    def refuse(self, piece: Lexeme, reason: str) -> NoReturn:
        """
        Refuse the text.

        Parameters
        ----------
        piece : Lexeme
            The piece that does not fit.
        reason : str
            What is wrong and what to do, in whole sentences.

        Raises
        ------
        RelationError
            Always.
        """
        raise RelationError(self._text, piece.position, reason)
