"""
The cases of a course that many students ask for at once.

To draw the case of one student takes nearly as long as to draw those of thirty. When a
service starts again before a deadline, all of a class come within a minute.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from typing_extensions import override

from workbook.errors import DrawError
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.judge.case import Case
    from workbook.wire.sheet import SheetId

#: So many students are drawn together [-]: nobody waits long for the others.
_TOGETHER = 32


class CrowdSource(CourseSource):
    """
    A course whose cases are drawn with those of others on the roster.

    Parameters
    ----------
    path : Path
        The course file; its key lies beside it.

    Raises
    ------
    AuthorError
        If the course file, its roster or one of its labs has a mistake.
    TaskError
        If the key is not there.

    Notes
    -----
    A case is handed out once, and has to be kept by whoever asked; one thread asks at a
    time.
    """

    def __init__(self, path: Path) -> None:
        super().__init__(path)
        #: Drawn with another's, and not asked for yet.
        self._waiting: dict[SheetId, Case] = {}

    @override
    def case(self, sheet: SheetId) -> Case:
        self._check(sheet)
        if sheet not in self._waiting:
            self._waiting |= self._draw_together(sheet)
        return self._waiting.pop(sheet)

    def _draw_together(self, sheet: SheetId) -> dict[SheetId, Case]:
        mates = self._shelf.mates(sheet.student, _TOGETHER)
        try:
            cases = self.cases(sheet.lab, mates)
        except DrawError:
            # One of them gets no fair values: that is no fault of the others.
            mates = (sheet.student,)
            cases = self.cases(sheet.lab, mates)
        sheets = (replace(sheet, student=each) for each in mates)
        return dict(zip(sheets, cases, strict=True))
