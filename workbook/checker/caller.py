"""Who asks: one student of one course, found from what came with the question."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from workbook.errors import CheckerRefusedError
from workbook.wire.message import Why

if TYPE_CHECKING:
    from workbook.wire.sheet import SheetId

#: What whoever is not known reads; it does not say what was wrong with their token.
UNKNOWN = (
    "The checker does not know who asks. Open the notebook in the folder that was "
    "issued to you, or log in anew; if that does not help, ask your instructor."
)


@dataclass(frozen=True, slots=True)
class Caller:
    """A student who may ask about sheets of their own."""

    course: str
    student: str
    #: The one lab that they may ask about; None for all of the course.
    lab: str | None = None

    def owns(self, sheet: SheetId) -> bool:
        """
        Tell whether a sheet is the caller's own.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.

        Returns
        -------
        bool
            False for another student, course or lab.
        """
        same = (sheet.course, sheet.student) == (self.course, self.student)
        return same and self.lab in {None, sheet.lab}


class Porter(Protocol):
    """A way to find who asks."""

    def find(self, token: str, address: str = "") -> Caller:
        """
        Return whose token this is.

        Parameters
        ----------
        token : str
            As it came.
        address : str
            Where from.

        Returns
        -------
        Caller
            The student to whom it was given.

        Raises
        ------
        CheckerRefusedError
            If it is nobody's, or that can't be told at the moment.
        """


class Porters:
    """
    Several ways to find who asks, tried one after the other.

    Parameters
    ----------
    *porters : Porter
        In the order in which they are tried.
    """

    def __init__(self, *porters: Porter) -> None:
        self._porters = porters

    def find(self, token: str, address: str = "") -> Caller:
        """
        Return whose token this is.

        Parameters
        ----------
        token : str
            As it came.
        address : str
            Where from.

        Returns
        -------
        Caller
            As the first that knows it says.

        Raises
        ------
        CheckerRefusedError
            If nobody knows it: what the last one says.
        """
        refused = CheckerRefusedError(Why.CALLER.value, UNKNOWN)
        for porter in self._porters:
            try:
                return porter.find(token, address)
            except CheckerRefusedError as error:
                refused = error
        raise refused
