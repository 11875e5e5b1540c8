"""
Where a solver gets its cases from: a course with its key.

Whoever holds a source holds every answer; it exists in the solver's process, and
in the instructor's commands.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import astuple
from typing_extensions import override

from workbook.draw.key import CourseKey, read_key
from workbook.draw.variant import choose_variant
from workbook.errors import CheckerRefusedError
from workbook.labfile.course import Conventions, read_course
from workbook.labfile.permit import PERMIT_FILE, Permit, PermitReader
from workbook.labfile.reader import read_lab
from workbook.solver.bench import Bench, prepare
from workbook.solver.gate import hold_back, list_sights
from workbook.solver.shelf import Shelf
from workbook.wire.message import Why

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime
    from pathlib import Path

    from workbook.judge.case import Case
    from workbook.labfile.half import Lab
    from workbook.wire.sheet import Sheet, SheetId, Sight

#: The key of a course lies beside its course file.
KEY_FILE = "course.key"

#: What a permit's seal is made for: the seal of a hand-in opens no gate.
_PERMIT = "permit"

#: What a hand-in's seal is made for.
_HAND_IN = "hand-in"


class Source:
    """
    The cases and sheets of some labs under one key.

    Parameters
    ----------
    name : str
        The course's name.
    labs : mapping of str to Lab
        By name.
    key : CourseKey
        The course's secret.
    conventions : Conventions
        How numbers are read and judged.
    """

    def __init__(
        self,
        name: str,
        labs: Mapping[str, Lab],
        key: CourseKey,
        conventions: Conventions,
    ) -> None:
        self.name = name
        self.labs = labs
        self._key = key
        #: Each lab as it is for the students of each of its variants.
        self._benches = {
            name: {key: prepare(way, conventions) for key, way in lab.ways.items()}
            for name, lab in labs.items()
        }

    def cases(self, lab: str, students: Sequence[str]) -> list[Case]:
        """
        Return the cases of several students, drawn and solved at once.

        Parameters
        ----------
        lab : str
            The lab's name.
        students : sequence of str
            Their ids.

        Returns
        -------
        list of Case
            In the order of *students*.

        Raises
        ------
        CheckerRefusedError
            If there is no such lab here.
        DrawError
            If a student gets no fair values.
        """
        groups: dict[Bench, list[str]] = {}
        for student in students:
            groups.setdefault(self._bench(lab, student), []).append(student)
        drawn: dict[str, Case] = {}
        for bench, group in groups.items():
            drawn |= zip(group, bench.draw(self._key, group), strict=True)
        return [drawn[student] for student in students]

    def case(self, sheet: SheetId) -> Case:
        """
        Return the case of one sheet.

        Parameters
        ----------
        sheet : SheetId
            Of this course, and of the lab's present revision.

        Returns
        -------
        Case
            With every hidden value.

        Raises
        ------
        CheckerRefusedError
            If the sheet is of another course, lab or revision.
        DrawError
            If the student gets no fair values.
        """
        self._check(sheet)
        return self.cases(sheet.lab, [sheet.student])[0]

    def sheet(self, sheet: SheetId) -> Sheet:
        """
        Return what one student may see.

        Parameters
        ----------
        sheet : SheetId
            Of this course, and of the lab's present revision.

        Returns
        -------
        Sheet
            Without a relation, a hidden value or an answer.

        Raises
        ------
        CheckerRefusedError
            If the sheet is of another course, lab or revision.
        DrawError
            If the student gets no fair values.
        """
        return self.show(sheet, self.case(sheet))

    def show(self, sheet: SheetId, case: Case) -> Sheet:
        """
        Return what one student may see of a case that is drawn already.

        Parameters
        ----------
        sheet : SheetId
            Whose it is.
        case : Case
            That student's.

        Returns
        -------
        Sheet
            Without a relation, a hidden value or an answer; where the lab has a gate,
            without the readings after it.

        Raises
        ------
        CheckerRefusedError
            If there is no such lab here.
        """
        bench = self._bench(sheet.lab, sheet.student)
        return hold_back(bench.show(sheet, case), bench.lab.public.gate)

    def show_whole(self, sheet: SheetId, case: Case) -> Sheet:
        """
        Return what one student may see once nothing is held back.

        Parameters
        ----------
        sheet : SheetId
            Whose it is.
        case : Case
            That student's.

        Returns
        -------
        Sheet
            With the readings after the lab, whatever the gate says.

        Raises
        ------
        CheckerRefusedError
            If there is no such lab here.
        """
        return self._bench(sheet.lab, sheet.student).show(sheet, case)

    def show_readings(self, sheet: SheetId, case: Case) -> tuple[Sight, ...]:
        """
        Return what the instruments after the lab show one student.

        Parameters
        ----------
        sheet : SheetId
            Whose it is.
        case : Case
            That student's.

        Returns
        -------
        tuple of Sight
            Whatever the gate says: whoever calls this has asked it.

        Raises
        ------
        CheckerRefusedError
            If there is no such lab here.
        """
        return list_sights(self.show_whole(sheet, case))

    def is_permitted(self, sheet: SheetId) -> bool:
        """
        Tell whether a student passes a gate without having answered rightly.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.

        Returns
        -------
        bool
            False here, where nobody could permit it.
        """
        del sheet
        return False

    def seal(self, sheet: SheetId, digest: str) -> str:
        """
        Return the seal of a hand-in.

        A checker sees the fingerprint alone, and can't tell whose hand-in it is of: the
        seal holds for the sheet of whoever asked, and for no other.

        Parameters
        ----------
        sheet : SheetId
            Who asks for it.
        digest : str
            The hand-in's fingerprint.

        Returns
        -------
        str
            64 hexadecimal digits that nobody else can make.
        """
        return self._key.seal(*_name_hand_in(sheet, digest))

    def is_seal(self, seal: str, sheet: SheetId, digest: str) -> bool:
        """
        Tell whether a seal was made here for a hand-in.

        Parameters
        ----------
        seal : str
            As it came.
        sheet : SheetId
            Whose and what the hand-in is.
        digest : str
            The hand-in's fingerprint.

        Returns
        -------
        bool
            False for any other text.
        """
        return self._key.is_seal(seal, *_name_hand_in(sheet, digest))

    def _bench(self, lab: str, student: str) -> Bench:
        """Return a lab as one student has it: in their variant of it."""
        if lab not in self._benches:
            reason = f"There is no lab {lab!r} here; there are {sorted(self.labs)}."
            raise CheckerRefusedError(Why.COURSE.value, reason)
        public = self.labs[lab].public
        return self._benches[lab][choose_variant(self._key, public, student)]

    def _check(self, sheet: SheetId) -> None:
        if sheet.course != self.name:
            reason = (
                f"This sheet is of the course {sheet.course!r}; the checker found here "
                f"is of {self.name!r}. Open the notebook from its own folder."
            )
            raise CheckerRefusedError(Why.COURSE.value, reason)
        revision = self._bench(sheet.lab, sheet.student).lab.public.revision
        if sheet.revision != revision:
            reason = (
                f"This sheet is of revision {sheet.revision} of {sheet.lab!r}, which "
                f"now stands at {revision}. Ask your instructor for the new sheet."
            )
            raise CheckerRefusedError(Why.REVISION.value, reason)


class CourseSource(Source):
    """
    The cases and sheets of a course.

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
    """

    def __init__(self, path: Path) -> None:
        self.course = read_course(path)
        labs = {name: read_lab(each) for name, each in self.course.folders.items()}
        key = read_key(path.parent / KEY_FILE)
        super().__init__(self.course.name, labs, key, self.course.conventions)
        self._shelf = Shelf(self.course)
        #: Where the permits of the course are kept.
        self.permits = path.parent / PERMIT_FILE
        self._permitted = PermitReader(self.permits)

    @override
    def _bench(self, lab: str, student: str) -> Bench:
        return self._shelf.find(super()._bench(lab, student), student)

    @override
    def _check(self, sheet: SheetId) -> None:
        if sheet.student not in self._shelf:
            reason = f"{sheet.student!r} is not on the roster of {self.name!r}."
            raise CheckerRefusedError(Why.STUDENT.value, reason)
        super()._check(sheet)

    def permit(self, student: str, lab: str, at: datetime) -> Permit:
        """
        Return the permit by which a student passes the gate of a lab.

        Parameters
        ----------
        student : str
            The student's id.
        lab : str
            The lab's name.
        at : datetime
            When it is given, with its time zone.

        Returns
        -------
        Permit
            Sealed: nobody without the course key can make it.
        """
        seal = self._key.seal(_PERMIT, self.name, lab, student)
        return Permit(student=student, lab=lab, at=at, seal=seal)

    @override
    def is_permitted(self, sheet: SheetId) -> bool:
        # Looked at each time: an instructor opens a gate while the checker runs.
        name = (_PERMIT, self.name, sheet.lab, sheet.student)
        return any(
            (permit.lab, permit.student) == (sheet.lab, sheet.student)
            and self._key.is_seal(permit.seal, *name)
            for permit in self._permitted.read()
        )


def _name_hand_in(sheet: SheetId, digest: str) -> tuple[str, ...]:
    """Return what the seal of a hand-in is of, part by part."""
    return (_HAND_IN, *map(str, astuple(sheet)), digest)
