"""Steps that have nothing to work out, because their one factor is nearly 1."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.graph.quantity import Origin
from workbook.graph.span import ROUND_OFF
from workbook.relation.text import to_text
from workbook.relation.tree import RATIO, Call, Name, Node, Operation

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.graph.quantity import Graph
    from workbook.labfile.finding import Finding

#: A factor nearer to 1 than this hides whether it was used [-]. Common practice, no
#: source.
NEAR_ONE = 0.02


def find_vanishing(graph: Graph) -> Iterator[Finding]:
    """
    Find steps whose answer is what they start from.

    Parameters
    ----------
    graph : Graph
        The lab.

    Returns
    -------
    iterator of Finding
        One for each step that multiplies by a single constant or ratio near 1.
    """
    public = graph.lab.public
    for part, asks in (("prelab", public.prelab), ("postlab", public.postlab)):
        for index, ask in enumerate(asks):
            relation = graph.quantities[ask.of].relation if ask.of else None
            factor = _only_factor(graph, relation) if relation else None
            if factor is not None and _is_one(_worth(graph, factor)):
                sentence = (
                    f"{ask.id!r} has nothing to work out: its only factor, "
                    f"{to_text(factor, str)}, is {_worth(graph, factor):.3g}. Ask for "
                    "it together with a step beside it, or take another substance."
                )
                yield (part, index, "of"), sentence


def _is_one(worth: float) -> bool:
    return abs(worth - 1) <= NEAR_ONE * (1 + ROUND_OFF)


def _only_factor(graph: Graph, relation: Node) -> Node | None:
    """Return the constant beside the one value of a product; None for any other."""
    match relation:
        case Operation("*" | "/", left, right):
            if _is_value(graph, left) and _is_fixed(graph, right):
                return right
            if _is_fixed(graph, left) and _is_value(graph, right):
                return left
    return None


def _is_fixed(graph: Graph, node: Node) -> bool:
    match node:
        case Call(name):
            return name == RATIO
        case Name(text):
            return graph.quantities[text].origin is Origin.CONSTANT
    return False


def _is_value(graph: Graph, node: Node) -> bool:
    return isinstance(node, Name) and not _is_fixed(graph, node)


def _worth(graph: Graph, factor: Node) -> float:
    match factor:
        case Call(_, (Name(of), Name(to), *named)):
            reaction = (getattr(each, "text", "") for each in named)
            return float(graph.ratio(of, to, *reaction))
        case Name(text) if (constant := graph.quantities[text].constant) is not None:
            return float(graph.quantities[text].to_base(float(constant.value)))
    msg = f"{factor} is no constant and no ratio."
    raise ValueError(msg)
