"""Where cases for practice come from: one lab, and a key that nobody keeps."""

from __future__ import annotations

import secrets
from typing import TYPE_CHECKING

from typing_extensions import override

from workbook.draw.key import new_key
from workbook.errors import CheckerRefusedError
from workbook.labfile.course import Conventions
from workbook.labfile.reader import read_lab
from workbook.solver.source import Source
from workbook.wire.message import Why
from workbook.wire.sheet import Sheet, SheetId

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case

#: The courses that practice sheets belong to start with this.
PRACTICE = "practice"


class PracticeSource(Source):
    """
    Fresh values for one lab, as often as wanted; its key is forgotten with it.

    Parameters
    ----------
    folder : Path
        The lab's folder.

    Raises
    ------
    AuthorError
        If the lab file has a mistake.

    Notes
    -----
    Each has a course name of its own.
    """

    def __init__(self, folder: Path) -> None:
        lab = read_lab(folder)
        # Another process has another key: it must refuse this one's sheets, and not
        # judge them by values of its own.
        name = f"{PRACTICE}-{secrets.token_hex(4)}"
        super().__init__(name, {lab.public.name: lab}, new_key(), Conventions())

    @override
    def case(self, sheet: SheetId) -> Case:
        if sheet.course != self.name:
            reason = (
                "The values of this practice sheet are gone with the checker that drew "
                "them. Restart the kernel for fresh ones."
            )
            raise CheckerRefusedError(Why.COURSE.value, reason)
        return super().case(sheet)

    @override
    def show(self, sheet: SheetId, case: Case) -> Sheet:
        # Nothing is held back: a practice sheet is one part of one notebook.
        return self._bench(sheet.lab, sheet.student).show(sheet, case)

    def fresh(self) -> SheetId:
        """
        Return a sheet that nobody has had before.

        Returns
        -------
        SheetId
            Of the one lab.
        """
        (lab,) = self.labs.values()
        student = secrets.token_hex(4)
        return SheetId(self.name, lab.public.name, lab.public.revision, student)
