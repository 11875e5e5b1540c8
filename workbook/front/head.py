"""The head of a page: what the lab is about, and what the student is given."""

from __future__ import annotations

import re
from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from workbook.wire.sheet import Reagent, Sheet

_COUNT = re.compile(r"(?<=[A-Za-z)\]])(\d+)")

_PRACTICE = (
    "This is a sheet for practice, with values of its own. It is not kept, and "
    "can't be handed in."
)


def show_head(sheet: Sheet, notices: Sequence[str], *, is_issued: bool) -> str:
    """
    Return HTML of everything on a sheet that is no step.

    Parameters
    ----------
    sheet : Sheet
        What the student may see.
    notices : sequence of str
        What went wrong when the page was opened, in sentences.
    is_issued : bool
        False for a sheet for practice.

    Returns
    -------
    str
        Parts that are empty are left out.
    """
    told = [*notices, *([] if is_issued else [_PRACTICE])]
    givens = (f"{given.label}: {given.shown}" for given in sheet.givens)
    return "".join(
        (
            f'<h2 class="wb-asks" id="wb-head">{escape(sheet.title)}</h2>',
            f"<p>{escape(sheet.about)}</p>",
            "".join(f'<p class="wb-told">{escape(notice)}</p>' for notice in told),
            _list("Given to you", givens),
            _list("Reactions", sheet.equations),
            _table(sheet.reagents),
            _list("Take care", sheet.cautions),
            _list("Conventions", sheet.rules),
        )
    )


def show_formula(formula: str) -> str:
    """
    Return HTML of a chemical formula, with its counts lowered.

    Parameters
    ----------
    formula : str
        As the sheet has it.

    Returns
    -------
    str
        A number that follows a letter or a bracket is lowered; one that stands
        before a part, as the 5 of a hydrate, is not.

    Examples
    --------
    >>> show_formula("CuSO4·5H2O")
    'CuSO<sub>4</sub>·5H<sub>2</sub>O'
    """
    return _COUNT.sub(r"<sub>\1</sub>", escape(formula))


def _list(title: str, items: Iterable[str]) -> str:
    rows = "".join(f"<li>{escape(item)}</li>" for item in items)
    return f"<h4>{title}</h4><ul>{rows}</ul>" if rows else ""


def _table(reagents: Sequence[Reagent]) -> str:
    if not reagents:
        return ""
    rows = "".join(_row(reagent) for reagent in reagents)
    head = "".join(
        f'<th scope="col">{title}</th>'
        for title in ("Substance", "Formula", "Data", "Hazards", "Waste")
    )
    return (
        '<h4>Substances</h4><div class="wb-wide" tabindex="0" role="region" '
        f'aria-label="Substances"><table><tr>{head}</tr>{rows}</table></div>'
    )


def _row(reagent: Reagent) -> str:
    cells = (
        show_formula(reagent.formula),
        "<br>".join(escape(fact) for fact in reagent.data),
        "<br>".join(escape(hazard) for hazard in reagent.hazards),
        escape(reagent.waste),
    )
    body = "".join(f"<td>{cell}</td>" for cell in cells)
    return f'<tr><th scope="row">{escape(reagent.name)}</th>{body}</tr>'
