"""
A lab as a student sees it, with the key beside it, while its file is being written.

It runs in a notebook of the author's own, in a folder of its own, and holds both sides
of the border: it is never part of what a student gets.
"""

from __future__ import annotations

import asyncio
import shutil
from datetime import datetime
from html import escape
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from ipywidgets import HTML, Box, Dropdown, IntText, Output, VBox
from typing_extensions import override

from workbook.authoring.key import print_answers, print_values
from workbook.client.direct import DirectChecker
from workbook.client.place import Part
from workbook.client.session import Session
from workbook.draw.key import CourseKey
from workbook.errors import AuthorError, DrawError, WorkbookError
from workbook.front.display import bundle, let_go
from workbook.front.page import Page
from workbook.issuing.folder import gather_files
from workbook.issuing.notebook import build_notebooks
from workbook.labfile.course import Conventions
from workbook.labfile.reader import LAB_FILE, read_lab
from workbook.solver.desk import Desk
from workbook.solver.source import Source
from workbook.store import write_file
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from ipywidgets import Widget

    from workbook.judge.case import Case
    from workbook.labfile.half import Lab
    from workbook.wire.sheet import Sheet

#: Holds the path of the lab's folder, beside the notebook of a preview.
PATH_FILE = "preview.txt"

#: Where the cards keep what is typed, until others stand in their place.
_KEPT = ".typed"

#: How often the lab file is looked at [s].
_LOOK_S = 1.0

#: The key of every preview: a variant keeps its values from save to save.
_KEY = CourseKey(bytes(32))

_COURSE = "preview"

_CSS = files("workbook.authoring").joinpath("preview.css").read_text(encoding="utf-8")


class OpenSource(Source):
    """The cases of one lab for its author: no gate holds anything back."""

    def __init__(self, lab: Lab) -> None:
        super().__init__(_COURSE, {lab.public.name: lab}, _KEY, Conventions())
        self.lab = lab

    @override
    def show(self, sheet: SheetId, case: Case) -> Sheet:
        return self._bench(sheet.lab, sheet.student).show(sheet, case)

    def name_sheet(self, variant: str) -> SheetId:
        """
        Return the sheet of a variant.

        Parameters
        ----------
        variant : str
            Any text; each has values of its own.

        Returns
        -------
        SheetId
            Of the one lab.
        """
        public = self.lab.public
        return SheetId(_COURSE, public.name, public.revision, variant)


class Preview:
    """
    A student's cards, and beside each its key.

    Parameters
    ----------
    folder : Path
        The lab's folder.
    place : Path
        The preview's own folder, into which drawings are copied.
    """

    def __init__(self, folder: Path, place: Path) -> None:
        self._path = folder / LAB_FILE
        self._place = place
        self._seen = ""
        #: What looks at the file; kept, or the loop would let it go.
        self.following: asyncio.Task[None] | None = None
        self._source: OpenSource | None = None
        self.variant = IntText(value=1, description="Variant")
        parts = [("Before the lab", Part.PRELAB), ("After the lab", Part.POSTLAB)]
        self.part = Dropdown(description="Notebook", options=parts)
        self.says = HTML()
        #: What a student sees, each beside its key: the words, the cards.
        self.pairs = VBox()
        self.variant.add_class("wb-entry")
        for each in (self.variant, self.part):
            each.observe(lambda _: self.show(), "value")
        choice = Box([self.variant, self.part])
        choice.add_class("wb-bench")
        bar = VBox([choice, self.says])
        # The look of the cards keeps the notebook's single keys from its fields.
        bar.add_class("wb-card")
        self.box = VBox([HTML(f"<style>{_CSS}</style>"), bar, self.pairs])
        self.box.add_class("wb-preview")
        self.look_again()

    def look_again(self) -> bool:
        """
        Read the lab file anew if it was saved since.

        Returns
        -------
        bool
            True if it was.
        """
        stamp = self._stamp()
        if stamp == self._seen:
            return False
        self._seen = stamp
        try:
            self._source = OpenSource(read_lab(self._path))
            self._copy_drawings(self._source.lab)
        except WorkbookError as error:
            self._tell(_list_findings(error))
        else:
            self.show()
        return True

    def show(self) -> None:
        """Show the chosen variant on both sides; where that fails, say why."""
        if self._source is None:
            return
        variant = str(self.variant.value)
        sheet_id = self._source.name_sheet(variant)
        try:
            case = self._source.case(sheet_id)
            sheet = self._source.show(sheet_id, case)
        except DrawError as error:
            self._tell(_list_findings(error))
            return
        self._lay(sheet, case)
        now = datetime.now().astimezone().strftime("%H:%M:%S")
        self._tell(f"Shown as saved; looked at {escape(str(self._path))} at {now}.")

    async def follow(self) -> None:
        """Look at the lab file again and again, for as long as the kernel runs."""
        while True:
            await asyncio.sleep(_LOOK_S)
            self.look_again()

    def _stamp(self) -> str:
        try:
            found = self._path.stat()
        except OSError:
            return "none"
        return f"{found.st_mtime_ns} {found.st_size}"

    def _lay(self, sheet: Sheet, case: Case) -> None:
        """Put fresh cards in the place of those that stand there."""
        source, part = self._source, self.part.value
        if source is None:
            return
        kept = self._place / _KEPT
        shutil.rmtree(kept, ignore_errors=True)
        kept.mkdir()
        checker = DirectChecker(Desk(source).answer)
        page = Page(Session(sheet, part, kept, checker))
        answers = print_answers(case)
        head = VBox([Output(outputs=tuple(_introduce(source.lab, part))), page.box])
        old = self.pairs.children
        self.pairs.children = (
            _pair(head, print_values(case, sheet.id.student)),
            *(
                _pair(page.card(step.id).box, answers[step.id])
                for step in (sheet.prelab if part is Part.PRELAB else sheet.postlab)
            ),
        )
        let_go(old)

    def _copy_drawings(self, lab: Lab) -> None:
        for name, content in gather_files(lab).items():
            if name.endswith(".svg"):
                write_file(self._place / name, content, may_replace=True)

    def _tell(self, html: str) -> None:
        self.says.value = f'<div role="status">{html}</div>'

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, "preview")


def open_preview(place: Path | None = None) -> Preview:
    """
    Open the preview whose folder a notebook lies in.

    Parameters
    ----------
    place : Path or None
        The preview's folder; None for the one that the notebook lies in.

    Returns
    -------
    Preview
        It follows the lab file where a loop runs, as in a notebook.

    Raises
    ------
    OSError
        If the folder does not say which lab is meant.
    """
    here = place or Path.cwd()
    folder = Path((here / PATH_FILE).read_text(encoding="utf-8").strip())
    preview = Preview(folder, here)
    try:
        loop = asyncio.get_running_loop()
    except RuntimeError:
        return preview
    preview.following = loop.create_task(preview.follow())
    return preview


def _pair(shown: Widget, key: str) -> Box:
    """Return what a student sees with its key beside it."""
    sides = (VBox([shown]), HTML(key))
    for side in sides:
        side.add_class("wb-side")
    pair = Box(sides)
    pair.add_class("wb-pair")
    return pair


def _introduce(lab: Lab, part: Part) -> list[dict[str, object]]:
    """Return the words at the head of a notebook as outputs that are typeset."""
    notebook = build_notebooks(lab.public)[f"{part.value}.ipynb"]
    cells = notebook["cells"]
    return [
        {
            "output_type": "display_data",
            "data": {"text/markdown": "".join(cell["source"])},
            "metadata": {},
        }
        for cell in (cells if isinstance(cells, list) else [])
        if cell["cell_type"] == "markdown"
    ]


def _list_findings(error: WorkbookError) -> str:
    found = error.findings if isinstance(error, AuthorError) else (str(error),)
    rows = "".join(f"<li>{escape(each)}</li>" for each in found)
    return f"The lab as it was before is shown. To mend:<ul>{rows}</ul>"
