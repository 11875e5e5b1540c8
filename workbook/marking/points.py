"""The rules that give points, applied to verdicts; exact, in decimal numbers."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.wire.verdict import NO_ATTEMPT, Outcome, Verdict

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from workbook.labfile.attempt import AttemptRule
    from workbook.labfile.course import CreditTable, MarkScheme
    from workbook.labfile.half import Ask, PublicHalf

#: Kinds of step whose method earns a part of the points.
_WITH_METHOD = frozenset({"chain", "algebra"})

#: Points that do not come out even are rounded to this [point].
_HUNDREDTH = Decimal("0.01")


def worth(scheme: MarkScheme, lab: str, ask: Ask) -> Decimal:
    """
    Return what a step is worth.

    Parameters
    ----------
    scheme : MarkScheme
        The course's rules.
    lab : str
        The lab's name.
    ask : Ask
        The step.

    Returns
    -------
    Decimal
        The step's own points, or those of its kind [point].
    """
    points: Decimal = getattr(scheme.points, ask.kind)
    return scheme.steps.get(lab, {}).get(ask.id, points)


def total(scheme: MarkScheme, public: PublicHalf) -> Decimal:
    """
    Return what a lab is worth.

    Parameters
    ----------
    scheme : MarkScheme
        The course's rules.
    public : PublicHalf
        The lab.

    Returns
    -------
    Decimal
        The sum over all steps of both parts [point].
    """
    each = (worth(scheme, public.name, ask) for ask in public.asks)
    return sum(each, start=Decimal(0))


@dataclass(frozen=True, slots=True)
class Split:
    """Points of a step: for its method, 0 where none is asked, and for its value."""

    method: Decimal
    value: Decimal

    @property
    def both(self) -> Decimal:
        """The sum [point]."""
        return self.method + self.value


def split(scheme: MarkScheme, lab: str, ask: Ask) -> Split:
    """
    Return what the method and the value of a step are worth.

    Parameters
    ----------
    scheme : MarkScheme
        The course's rules.
    lab : str
        The lab's name.
    ask : Ask
        The step.

    Returns
    -------
    Split
        What a right answer earns [point].
    """
    points = worth(scheme, lab, ask)
    share = scheme.credit.method if ask.kind in _WITH_METHOD else Decimal(0)
    return Split(points * share, points * (1 - share))


def earn(
    credit: CreditTable, full: Split, verdict: Verdict, slips: Collection[str] = ()
) -> Split:
    """
    Return what a verdict earns.

    Parameters
    ----------
    credit : CreditTable
        The course's rules.
    full : Split
        What a right answer earns [point].
    verdict : Verdict
        What the judge said; one that was no attempt earns nothing.
    slips : collection of str
        The kinds of the mistake that was recognised; where several share a sentence,
        the one that earns most counts.

    Returns
    -------
    Split
        Method and value are judged apart [point].
    """
    if verdict.outcome in NO_ATTEMPT:
        return Split(Decimal(0), Decimal(0))
    method = full.method if verdict.method_holds else Decimal(0)
    if verdict.parts:
        return Split(method, _share(full.value, verdict.parts))
    return Split(method, full.value * _credit_value(credit, verdict, slips))


def _share(points: Decimal, parts: tuple[bool, ...]) -> Decimal:
    """Return what the parts that hold earn, at the worst to a hundredth."""
    earned = points * sum(parts) / len(parts)
    is_exact = earned * len(parts) == points * sum(parts)
    return earned if is_exact else earned.quantize(_HUNDREDTH)


def _credit_value(
    credit: CreditTable, verdict: Verdict, slips: Collection[str]
) -> Decimal:
    if verdict.value_holds:
        return credit.follows if verdict.follows else Decimal(1)
    if verdict.outcome is not Outcome.SLIP:
        return Decimal(0)
    shares = (credit.slips.get(kind, credit.slip) for kind in slips)
    return max(shares, default=credit.slip)


def charge(rule: AttemptRule, number: int, earned: Decimal) -> Decimal:
    """
    Return what an attempt costs that is not among the first.

    Parameters
    ----------
    rule : AttemptRule
        The step's.
    number : int
        The how many-th attempt is marked [-].
    earned : Decimal
        What it earns otherwise [point].

    Returns
    -------
    Decimal
        Never more than is earned, at the worst to a hundredth [point].
    """
    more = max(0, number - rule.free)
    cost = min(earned, earned * rule.takes * more)
    return cost.quantize(_HUNDREDTH) if more and rule.takes else Decimal(0)


def has_wrong_figures(verdict: Verdict) -> bool:
    """
    Tell whether a right value was written with too many or too few figures.

    Parameters
    ----------
    verdict : Verdict
        What the judge said.

    Returns
    -------
    bool
        True for that outcome alone.
    """
    return verdict.outcome is Outcome.FIGURES


def lacks_unit(verdict: Verdict) -> bool:
    """
    Tell whether a right value was written without its unit.

    Parameters
    ----------
    verdict : Verdict
        What the judge said.

    Returns
    -------
    bool
        False for a wrong value, which has lost its points already.
    """
    is_attempt = verdict.outcome not in NO_ATTEMPT
    return is_attempt and verdict.value_holds and not verdict.unit_written


def deduct(earned: Decimal, losses: Iterable[Decimal]) -> Decimal:
    """
    Return what is taken off once a sheet.

    Parameters
    ----------
    earned : Decimal
        What the steps have earned [point].
    losses : iterable of Decimal
        What the rules take off [point].

    Returns
    -------
    Decimal
        Never more than was earned [point].
    """
    return min(earned, sum(losses, start=Decimal(0)))
