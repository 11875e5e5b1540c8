"""A chemical formula as it is printed."""

from __future__ import annotations

import re
from html import escape

_COUNT = re.compile(r"(?<=[A-Za-z)\]])(\d+)")


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
