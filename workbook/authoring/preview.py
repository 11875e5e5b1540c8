"""
A lab as a student sees it, with the key beside it, while its file is being written.

It runs in a notebook of the author's own, in a folder of its own, and holds both sides
of the border: it is never part of what a student gets.
"""

from __future__ import annotations

import asyncio
import tempfile
from datetime import datetime
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from ipywidgets import HTML, Dropdown, HBox, IntText, Output, VBox
from typing_extensions import override

from workbook.authoring.key import print_key
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

#: How often the lab file is looked at [s].
_LOOK_S = 1.0

#: The key of every preview: a variant keeps its values from save to save.
_KEY = CourseKey(bytes(32))

_COURSE = "preview"

_STYLE = (
    "<style>.wb-key table{border-collapse:collapse;width:100%}"
    ".wb-key :is(th,td){text-align:left;vertical-align:top;padding:.2em .6em .2em 0; "
    "overflow-wrap:anywhere;border-bottom:1px solid var(--jp-border-color1)}"
    ".wb-key dd{margin:0 0 .4em 1em}.wb-key summary{cursor:pointer}"
    ".wb-key{line-height:1.4;color:var(--jp-content-font-color0)}</style>"
)


class OpenSource(Source):
    """The cases of one lab for its author: no gate holds anything back."""

    def __init__(self, lab: Lab) -> None:
        super().__init__(_COURSE, {lab.public.name: lab}, _KEY, Conventions())
        self.lab = lab

    @override
    def show(self, sheet: SheetId, case: Case) -> Sheet:
        return self._find(sheet.lab).show(sheet, case)

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
    Two columns: a student's cards, and the key.

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
        self.student = VBox(layout={"width": "50%"})
        self.key = HTML(layout={"width": "50%"})
        for each in (self.variant, self.part):
            each.observe(lambda _: self.show(), "value")
        bar = VBox([HBox([self.variant, self.part]), self.says])
        # The look of the cards keeps the notebook's single keys from its fields.
        bar.add_class("wb-card")
        columns = HBox([self.student, self.key])
        self.box = VBox([bar, columns])
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
        self._lay(sheet)
        self.key.value = _STYLE + print_key(case, variant)
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

    def _lay(self, sheet: Sheet) -> None:
        """Put fresh cards in the place of those that stand there."""
        source = self._source
        if source is None:
            return
        place = Path(tempfile.mkdtemp(prefix="workbook-preview-"))
        checker = DirectChecker(Desk(source).answer)
        page = Page(Session(sheet, self.part.value, place, checker))
        cards: list[Widget] = [
            page.card(step.id).box
            for step in (
                sheet.prelab if self.part.value is Part.PRELAB else sheet.postlab
            )
        ]
        old = self.student.children
        words = Output(outputs=tuple(_introduce(source.lab, self.part.value)))
        self.student.children = (words, page.box, *cards)
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
