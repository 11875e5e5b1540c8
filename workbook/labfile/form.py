"""What a step shows besides its question, for the kinds that ask for no one number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from workbook.labfile.kind import MatchingTable, TextTable

if TYPE_CHECKING:
    from workbook.labfile.table import Named


@dataclass(frozen=True, slots=True)
class TextForm:
    """A text to write."""

    #: What to write about, a line each.
    prompts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MatchingForm:
    """Rows to which options may belong."""

    #: What each is called, by name.
    rows: tuple[tuple[str, str], ...]


Form: TypeAlias = TextForm | MatchingForm


def make_form(step: Named) -> Form | None:
    """
    Return what a step shows besides its question.

    Parameters
    ----------
    step : Named
        The step's table.

    Returns
    -------
    Form or None
        Nothing of the key; None for a step that shows options at most.
    """
    match step:
        case TextTable(prompts=prompts):
            return TextForm(prompts)
        case MatchingTable(rows=rows):
            return MatchingForm(tuple(rows.items()))
    return None


def rows_of(form: Form | None) -> dict[str, str]:
    """
    Return the rows of a matching.

    Parameters
    ----------
    form : Form or None
        What a step shows.

    Returns
    -------
    dict of str to str
        What each is called, by name; empty for any other form.
    """
    return dict(form.rows) if isinstance(form, MatchingForm) else {}
