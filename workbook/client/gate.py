"""
The readings behind the gate before the lab: asked for, put on the sheet, and kept.

What a student was shown once stays theirs, with a checker or without.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from workbook.client.place import locate_readings
from workbook.client.transport import ask_in_reach
from workbook.errors import CheckerError, CheckerRefusedError, TaskError
from workbook.store import write_file
from workbook.wire.message import Held, Passed, PassGate
from workbook.wire.sheet import ReadingStep, SheetId, Sight

if TYPE_CHECKING:
    from workbook.client.session import Session
    from workbook.wire.sheet import Sheet, Step

_UNREACHED = (
    "The checker can't be reached, so the readings can't be shown yet; nothing of "
    "yours is lost, and you can ask for them again later."
)
_NOT_KEPT = "{error} The readings are shown all the same, until this page is closed."
_OTHER = "The checker did not answer with the readings."


class _Kept(Struct, frozen=True, forbid_unknown_fields=True):
    """What was shown, and on which sheet."""

    sheet: SheetId
    sights: tuple[Sight, ...]


class Gate:
    """
    What stands between a session and the readings of its sheet.

    Parameters
    ----------
    session : Session
        Its sheet gets the readings as soon as they are shown.
    """

    def __init__(self, session: Session) -> None:
        self._session = session
        #: The questions that are not right yet, as the checker last said.
        self.missing: tuple[str, ...] = ()
        #: What else there is to tell, in a sentence; empty when nothing is.
        self.trouble = ""
        put_back(session)

    @property
    def is_shut(self) -> bool:
        """Whether a reading after the lab is not shown yet."""
        return any(map(is_held, self._session.sheet.postlab))

    @property
    def questions(self) -> tuple[str, ...]:
        """What must be right before the lab, in the words of the sheet."""
        sheet = self._session.sheet
        return tuple(sheet.step(step).asks for step in sheet.gate)

    def ask(self) -> None:
        """Ask for the readings; `missing` or `trouble` says why there are none."""
        session = self._session
        self.missing, self.trouble = (), ""
        # A checker with a record goes by what it was sent.
        session.send_again()
        try:
            question = PassGate(session.sheet.id, session.history.stand().answers)
            task = "show the readings"
            said = ask_in_reach(session.checker, question, task=task)
        except (CheckerRefusedError, TaskError) as error:
            self.trouble = str(error)
        except CheckerError:
            self.trouble = _UNREACHED
        else:
            self._take(said)

    def _take(self, said: object) -> None:
        session = self._session
        match said:
            case Passed(sights):
                session.sheet = _show(session.sheet, sights)
                self._keep(sights)
            case Held(missing):
                self.missing = tuple(session.sheet.step(step).asks for step in missing)
            case _:
                self.trouble = _OTHER

    def _keep(self, sights: tuple[Sight, ...]) -> None:
        sheet = self._session.sheet.id
        content = msgspec.json.format(msgspec.json.encode(_Kept(sheet, sights)))
        try:
            path = locate_readings(self._session.folder, sheet)
            write_file(path, content + b"\n", may_replace=True)
        except TaskError as error:
            self.trouble = _NOT_KEPT.format(error=error)


def put_back(session: Session) -> None:
    """
    Show again what was shown before, by whichever notebook.

    Parameters
    ----------
    session : Session
        Its sheet gets the readings that were kept in its folder; a damaged file is
        left aside, and they can be asked for anew.
    """
    if not any(map(is_held, session.sheet.postlab)):
        return
    try:
        path = locate_readings(session.folder, session.sheet.id)
        kept = msgspec.json.decode(path.read_bytes(), type=_Kept)
    except (OSError, TaskError, msgspec.DecodeError, UnicodeDecodeError):
        return
    if kept.sheet == session.sheet.id:
        session.sheet = _show(session.sheet, kept.sights)


def is_held(step: Step) -> bool:
    """
    Tell whether a step is a reading that is not shown yet.

    Parameters
    ----------
    step : Step
        As it stands on the sheet.

    Returns
    -------
    bool
        False for every other kind of step.
    """
    return isinstance(step, ReadingStep) and not step.seen


def _show(sheet: Sheet, sights: tuple[Sight, ...]) -> Sheet:
    """Return the sheet with what its instruments after the lab show."""
    shown = {sight.step: sight for sight in sights}
    return replace(sheet, postlab=tuple(_fill(step, shown) for step in sheet.postlab))


def _fill(step: Step, shown: dict[str, Sight]) -> Step:
    if not isinstance(step, ReadingStep) or step.id not in shown:
        return step
    sight = shown[step.id]
    return replace(step, seen=sight.seen, picture=sight.picture)
