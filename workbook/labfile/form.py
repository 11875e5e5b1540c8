"""What a step shows besides its question, for the kinds that ask for no one number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from workbook.labfile.kind import TextTable

if TYPE_CHECKING:
    from workbook.labfile.table import Named


@dataclass(frozen=True, slots=True)
class TextForm:
    """A text to write."""

    #: What to write about, a line each.
    prompts: tuple[str, ...]


Form: TypeAlias = TextForm


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
    return None
