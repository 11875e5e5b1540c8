"""
The two notebooks of a lab, made from its public half alone.

The same half gives the same bytes, so that a lab folder can be held against its
file. What a notebook says stands in plain cells; each step is one hidden line.

A notebook is made as the JSON of its open format, version 4.5, directly: the library
for that format takes longer to load than all else that a command does.
"""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, TypeAlias

from workbook.labfile.drawing import list_schemes, list_structures
from workbook.labfile.substance import describe_reagents, write_equations
from workbook.matter.formula import read_formula, to_latex

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from workbook.labfile.drawing import Drawing
    from workbook.labfile.half import Ask, PublicHalf
    from workbook.wire.sheet import Reagent

Cell: TypeAlias = dict[str, object]
Notebook: TypeAlias = dict[str, object]

#: The version of the format: the first that gives each cell an id.
_VERSION = {"nbformat": 4, "nbformat_minor": 5}

#: File name of each notebook, by the part of the sheet that it holds.
NOTEBOOK_FILES = {"prelab": "prelab.ipynb", "postlab": "postlab.ipynb"}

_HEADINGS = {"prelab": "Before the lab", "postlab": "After the lab"}

_PRESS = "If no cards show below, choose **Run > Run All Cells** in the menu."

_DEFER = (
    "These are the usual cautions. The rules of your site, its safety data sheets "
    "and its licensed staff decide; where they say otherwise, follow them."
)

_METADATA = {
    "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
    # Asks the extension of `workbook/labextension` to run the cells on opening.
    "lab_workbook": {"runs_on_opening": True},
}

#: What Markdown, a table or MathJax would act on: anywhere, and at a line's start.
_ACTIVE = re.compile(r"[\\`*_\[\]<>&$|~#]|^[-+=]|(?<=^\d)[.)]")


def build_notebooks(public: PublicHalf) -> dict[str, Notebook]:
    """
    Return the notebooks of a lab.

    Parameters
    ----------
    public : PublicHalf
        What a student may learn of the lab.

    Returns
    -------
    dict of str to dict
        ``"prelab.ipynb"`` and ``"postlab.ipynb"``, without outputs.
    """
    parts = {"prelab": public.prelab, "postlab": public.postlab}
    return {
        NOTEBOOK_FILES[part]: _build(public, part, asks) for part, asks in parts.items()
    }


def encode_notebook(notebook: Notebook) -> bytes:
    """
    Return a notebook as the content of its file.

    Parameters
    ----------
    notebook : dict
        What `build_notebooks` made.

    Returns
    -------
    bytes
        JSON in UTF-8, laid out as JupyterLab saves it.
    """
    text = json.dumps(notebook, ensure_ascii=False, indent=1, sort_keys=True)
    return text.encode() + b"\n"


def _build(public: PublicHalf, part: str, asks: tuple[Ask, ...]) -> Notebook:
    cells = [*_introduce(public, part), *_ask(part, asks)]
    return {"cells": cells, "metadata": _METADATA, **_VERSION}


def _introduce(public: PublicHalf, part: str) -> Iterator[Cell]:
    title = f"# {_HEADINGS[part]}: {_quiet(public.title)}\n\n{_PRESS}"
    yield _say("title", title)
    yield _say("about", _quiet(public.about))
    yield _say("reactions", _write_reactions(public))
    yield _say("cautions", _write_cautions(public))
    yield _say("substances", _write_substances(public))


def _ask(part: str, asks: tuple[Ask, ...]) -> Iterator[Cell]:
    opening = f'from workbook import open_sheet\n\npage = open_sheet("{part}")\npage'
    yield _hide("page", opening)
    for number, ask in enumerate(asks, start=1):
        yield _hide(f"card-{number:02}", f'page.card("{ask.id}")')
    yield _hide("hand-in", "page.hand_in()")
    yield _hide("report", "page.report()")


def _say(name: str, text: str) -> Cell:
    return _make("markdown", name, text)


def _hide(name: str, code: str) -> Cell:
    """Return a code cell that opens closed, and has not been run."""
    cell = _make("code", name, code)
    hidden = {"jupyter": {"source_hidden": True}}
    return {**cell, "metadata": hidden, "outputs": [], "execution_count": None}


def _make(kind: str, name: str, text: str) -> Cell:
    lines = text.splitlines(keepends=True)
    return {"cell_type": kind, "id": name, "metadata": {}, "source": lines}


def _write_reactions(public: PublicHalf) -> str:
    ways = public.ways.values()
    texts = dict.fromkeys(text for way in ways for text in write_equations(way))
    listed = _join_list("## Reactions", texts)
    schemes = map(_show, list_schemes(public))
    return "\n\n".join((listed, *_say_variants(public), *schemes))


def _say_variants(public: PublicHalf) -> Iterator[str]:
    """Say what differs from student to student, since all have the same notebook."""
    if public.variant is not None:
        ways = (way.variant for way in public.ways.values())
        texts = "; or ".join(_quiet(each.says) for each in ways if each is not None)
        yield (
            "One thing differs from student to student. "
            f"{_quiet(public.variant.name.capitalize())}: {texts}. Which is yours "
            "stands below, under *Given to you*."
        )


def _show(drawing: Drawing) -> str:
    """Show a drawing that lies beside the notebook, or its words."""
    return f"![{_quiet(drawing.words)}]({drawing.file})"


def _write_cautions(public: PublicHalf) -> str:
    return f"{_join_list('## Cautions', public.cautions)}\n\n{_DEFER}"


def _join_list(heading: str, texts: Iterable[str]) -> str:
    lines = "\n".join(f"- {_quiet(text)}" for text in texts)
    return f"{heading}\n\n{lines}"


def _write_substances(public: PublicHalf) -> str:
    head = "| substance | formula | data | hazards | waste |\n|---|---|---|---|---|"
    ways = public.ways.values()
    reagents = dict.fromkeys(each for way in ways for each in describe_reagents(way))
    rows = "\n".join(map(_write_row, reagents))
    table = f"## Substances\n\n{head}\n{rows}"
    return "\n\n".join((table, *map(_show, list_structures(public))))


def _write_row(reagent: Reagent) -> str:
    cells = (
        _quiet(reagent.name),
        f"${to_latex(read_formula(reagent.formula))}$" if reagent.formula else "",
        "<br>".join(map(_quiet, reagent.data)),
        "<br>".join(map(_quiet, reagent.hazards)),
        _quiet(reagent.waste),
    )
    return f"| {' | '.join(cells)} |"


def _quiet(text: str) -> str:
    """Return a text that is shown letter by letter, on one line."""
    return _ACTIVE.sub(lambda found: f"&#{ord(found[0])};", " ".join(text.split()))
