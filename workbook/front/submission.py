"""The card that writes the hand-in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, VBox

from workbook.errors import TaskError
from workbook.front.display import bundle
from workbook.front.saying import show_note
from workbook.front.widget import make

if TYPE_CHECKING:
    from workbook.client.handin import Receipt
    from workbook.client.session import Session
    from workbook.front.look import Look
    from workbook.front.progress import Progress

_HEAD = (
    '<h3 class="wb-asks" id="wb-hand-in">Hand in your answers</h3>'
    '<p class="wb-note">This writes one file with everything you answered before '
    "and after the lab. You can go on working and write a later one; the earlier "
    "files stay.</p>"
)

_UNSEALED = "The checker could not be reached to seal it; it counts all the same."

_RECEIVED = "The checker took it on {at}, by its own clock."

_UNSENT = (
    "{unsent} of these answers could not be sent to the checker before; they are in "
    "the file. Write the hand-in again when their cards show verdicts."
)

_TIME = "%d %B %Y, %H:%M %Z"


class SubmissionCard:
    """
    The last card of a notebook.

    Parameters
    ----------
    session : Session
        What was answered, and where.
    progress : Progress
        Shown above the button.
    look : Look
        The page's style and manners.
    """

    def __init__(self, session: Session, progress: Progress, look: Look) -> None:
        self._session = session
        self.button = make(Button, description="Write the hand-in", css="wb-check")
        self.button.on_click(lambda _: self.hand_in())
        self.says = make(HTML, css="wb-says")
        parts = [look, make(HTML, _HEAD), progress.line, self.button, self.says]
        self.box = make(VBox, parts, css="wb-card")

    def hand_in(self) -> str:
        """
        Write the hand-in, and say what became of it.

        Returns
        -------
        str
            What is shown.
        """
        try:
            said = say_receipt(self._session.hand_in())
        except TaskError as error:
            said = str(error)
        self.says.value = show_note(said)
        return said

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, "card: hand-in")


def say_receipt(receipt: Receipt) -> str:
    """
    Return the receipt in words.

    Parameters
    ----------
    receipt : Receipt
        Of a hand-in that was written.

    Returns
    -------
    str
        File, time, content, and the first digits of its digest.
    """
    at = receipt.at.astimezone().strftime(_TIME)
    plural = "" if receipt.attempts == 1 else "s"
    written = (
        f"Written to {receipt.path.name} on {at}, with {receipt.attempts} "
        f"answer{plural}. It is known by {receipt.mark}. Submit this file."
    )
    said = [written]
    if receipt.received is not None:
        taken = receipt.received.astimezone().strftime(_TIME)
        said.append(_RECEIVED.format(at=taken))
    if not receipt.is_sealed:
        said.append(_UNSEALED)
    if receipt.unsent:
        said.append(_UNSENT.format(unsent=receipt.unsent))
    return " ".join(said)
