"""
A class that nobody belongs to: the same values for a lab at any time and place.

What a lab can't show at all is found on it once, without a course's key.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from workbook.draw.band import compute_column
from workbook.draw.key import KEY_LENGTH, CourseKey
from workbook.graph.compile import round_reading
from workbook.measure.units import convert

if TYPE_CHECKING:
    from workbook.graph.compile import Column
    from workbook.graph.quantity import Graph, Quantity

#: Students of the class [-].
PROBES = 256

#: Bits of a key's numbers [-].
_KEY_BITS = 256

#: Anybody can know it: nobody's values follow from it.
_OPEN_KEY = CourseKey(bytes(KEY_LENGTH))


def probe_class(graph: Graph) -> dict[str, Column]:
    """
    Return the values of the class.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    dict of str to array, (256,)
        Every quantity, in base units, drawn ones to any digit; a constant is a
        scalar of shape ().
    """
    solved: dict[str, Column] = {}
    with np.errstate(all="ignore"):
        for name, quantity in graph.quantities.items():
            if quantity.constant is not None:
                value = np.asarray(float(quantity.constant.value))
                solved[name] = quantity.to_base(value)
            elif quantity.relation is not None:
                column = compute_column(graph, quantity.relation, solved)
                solved[name] = round_reading(quantity, column)
            else:
                solved[name] = _spread(quantity)
    return solved


def _spread(quantity: Quantity) -> Column:
    if (drawn := quantity.draw) is None:
        msg = f"{quantity.name!r} has no value, no relation and no range."
        raise ValueError(msg)
    low, high = (
        float(convert(end, drawn.unit, quantity.unit))
        for end in (drawn.low, drawn.high)
    )
    numbers = [_OPEN_KEY.number(quantity.name, str(each)) for each in range(PROBES)]
    share = np.array([number / 2**_KEY_BITS for number in numbers])
    return quantity.to_base(low + share * (high - low))
