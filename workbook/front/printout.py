"""The card that writes the lab report."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, VBox

from workbook.client.gate import put_back
from workbook.client.report import save_report
from workbook.errors import TaskError
from workbook.front.display import bundle
from workbook.front.labreport import write_report
from workbook.front.saying import show_note
from workbook.front.widget import make

if TYPE_CHECKING:
    from pathlib import Path

    from workbook.client.session import Session
    from workbook.front.look import Look

_HEAD = (
    '<h3 class="wb-asks" id="wb-report">Print your lab report</h3>'
    '<p class="wb-note">This writes one page with everything you have checked before '
    "and after the lab. It is for you to read and to print; it is not what you hand "
    "in. A later one gets a name of its own, and the earlier ones stay.</p>"
)

_PRACTICE = "This sheet is for practice and is not kept, so no report is made of it."
_NOTHING = "Nothing was checked yet, so there is nothing to report."


class ReportCard:
    """
    The card under the hand-in.

    Parameters
    ----------
    session : Session
        What was answered, and where.
    look : Look
        The page's style and manners.
    """

    def __init__(self, session: Session, look: Look) -> None:
        self._session = session
        self.button = make(Button, description="Write the report", css="wb-check")
        self.button.on_click(lambda _: self.report())
        self.says = make(HTML, css="wb-says")
        self.box = make(
            VBox, [look, make(HTML, _HEAD), self.button, self.says], css="wb-card"
        )

    def report(self) -> str:
        """
        Write the report, and say what became of it.

        Returns
        -------
        str
            What is shown.
        """
        try:
            said = _say_place(self._write())
        except TaskError as error:
            said = str(error)
        self.says.value = show_note(said)
        return said

    def _write(self) -> Path:
        session = self._session
        if not session.is_issued:
            raise TaskError(_PRACTICE)
        standing = session.history.stand()
        if not standing.answers:
            raise TaskError(_NOTHING)
        # The notebook for after the lab may have been shown them meanwhile.
        put_back(session)
        report = write_report(session.sheet, standing, datetime.now(UTC))
        return save_report(report, session.sheet.id, session.folder)

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, "card: report")


def _say_place(path: Path) -> str:
    return (
        f"Written to {path.name}, beside this notebook. Open it from the list of "
        f"files; to print it, open it in a tab of its own in the browser."
    )
