"""
Honest students of the olive-oil lab: they make no mistake, each in a way of their own.

Everything is worked out here in decimal arithmetic, relation by relation, from the
numbers that the sheet prints; nothing of the graph or the judge is used.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal
from typing import TYPE_CHECKING

from workbook.wire.answer import Answer, Built, Chosen, Derived, Placed, Typed

if TYPE_CHECKING:
    import random
    from collections.abc import Mapping

#: Weights of C, H, O and Na: CIAAW 2021 abridged, and the same to two decimals.
ABRIDGED = {"C": "12.011", "H": "1.008", "O": "15.999", "Na": "22.990"}
TWO_DECIMALS = {"C": "12.01", "H": "1.01", "O": "16.00", "Na": "22.99"}

#: Digits of a calculator's display.
DISPLAY = 10

_CHAINS = {
    "planned_oil_volume": Placed("oil.density", turned=True),
    "planned_oil_amount": Placed("oil.molar_mass", turned=True),
    "lye_needed": Placed("ratio(lye, oil)", turned=False),
    "oil_mass": Placed("oil.density", turned=False),
    "oil_amount": Placed("oil.molar_mass", turned=True),
    "soap_amount": Placed("ratio(soap, oil)", turned=False),
}

#: Units of each kind, as they may be typed, with the power of ten to the first.
_UNITS: Mapping[str, tuple[tuple[str, int], ...]] = {
    "g": (("g", 0), ("grams", 0), ("mg", 3), ("kg", -3)),
    "mL": (("mL", 0), ("ml", 0), ("cm3", 0), ("cm³", 0), ("L", -3)),
    "mol": (("mol", 0), ("moles", 0), ("mmol", 3)),
    "g/mol": (("g/mol", 0), ("g mol-1", 0), ("g·mol⁻¹", 0), ("kg/mol", -3)),
    "%": (("%", 0), (" %", 0)),
}


@dataclass(frozen=True)
class Habit:
    """How one student works."""

    #: Figures that each value is rounded to; `DISPLAY` for all.
    figures: int
    #: Further figures that are carried on: 0 if the typed value is used further, 1 if
    #: one more figure is kept, `DISPLAY` if nothing is rounded.
    guard: int
    #: True if what is worked out within a step is rounded as well.
    rounds_on_the_way: bool
    #: ROUND_HALF_EVEN or ROUND_HALF_UP.
    ties: str
    weights: Mapping[str, str]
    #: By how many last digits each cylinder is read too high.
    misread: tuple[int, int]


def draw_habit(chance: random.Random) -> Habit:
    """Return a habit at random."""
    return Habit(
        figures=chance.choice([3, 4, DISPLAY]),
        guard=chance.choice([0, 1, DISPLAY]),
        rounds_on_the_way=chance.random() < 0.5,
        ties=chance.choice([ROUND_HALF_EVEN, ROUND_HALF_UP]),
        weights=chance.choice([ABRIDGED, TWO_DECIMALS]),
        misread=(chance.choice([-1, 0, 1]), chance.choice([-1, 0, 1])),
    )


class Honest:
    """
    One student with a habit, who answers a whole sheet.

    Parameters
    ----------
    read : mapping of str to float
        What the sheet and the instruments show, in g and mL.
    habit : Habit
        How the student works.
    chance : random.Random
        Decides how each number is typed.
    """

    def __init__(
        self, read: Mapping[str, float], habit: Habit, chance: random.Random
    ) -> None:
        self.habit = habit
        self._chance = chance
        self.answers: dict[str, Answer] = {}
        #: Figures that each answer was written with.
        self.figures: dict[str, int] = {}
        self._oil = self._mass({"C": 57, "H": 104, "O": 6})
        self._lye = self._mass({"Na": 1, "O": 1, "H": 1})
        self._acid = self._mass({"C": 6, "H": 10, "O": 8})
        self._before(Decimal(str(read["planned_oil"])))
        self._after(read)

    def _mass(self, atoms: Mapping[str, int]) -> Decimal:
        weights = self.habit.weights
        return sum((n * Decimal(weights[e]) for e, n in atoms.items()), Decimal(0))

    def _round(self, value: Decimal, figures: int) -> Decimal:
        rounded = Context(prec=figures, rounding=self.habit.ties).plus(value)
        place = rounded.adjusted() - figures + 1
        return rounded.quantize(Decimal(1).scaleb(place))

    def _way(self, value: Decimal) -> Decimal:
        """Round what is worked out within a step, or keep it."""
        kept = self.habit.figures if self.habit.rounds_on_the_way else 25
        return self._round(value, kept)

    def _answer(self, step: str, value: Decimal, unit: str) -> Decimal:
        """Type a value, and return what is carried on."""
        typed = self._round(value, self.habit.figures)
        self.figures[step] = self.habit.figures
        self._put(step, self._type(typed, unit))
        return self._round(value, self.habit.figures + self.habit.guard)

    def _put(self, step: str, text: str) -> None:
        if step in _CHAINS:
            self.answers[step] = Built((_CHAINS[step],), text)
        else:
            self.answers[step] = Typed(text)

    def _before(self, planned: Decimal) -> None:
        self._answer("planned_oil_volume", planned / Decimal("0.911"), "mL")
        amount = self._answer("planned_oil_amount", planned / self._oil, "mol")
        needed = self._answer("lye_needed", 3 * amount, "mol")
        lye_g = self._way(needed * self._lye)
        strength = self._way(Decimal("0.200") * Decimal("1.219"))
        self._answer("lye_needed_volume", lye_g / strength, "mL")
        self.answers["lye_statements"] = Chosen(("H290", "H314"))
        self.answers["splash"] = Chosen(("rinse",))
        self.answers["brine_waste"] = Chosen(("neutral",))

    def _after(self, read: Mapping[str, float]) -> None:
        digit = Decimal("0.1")
        oil_ml, lye_ml = (
            Decimal(f"{read[name]:.1f}") + off * digit
            for name, off in zip(
                ("oil_volume", "lye_volume"), self.habit.misread, strict=True
            )
        )
        dish, full = (
            Decimal(f"{read[name]:.2f}") for name in ("dish", "dish_and_soap")
        )
        for name, value, unit in (
            ("oil_volume", oil_ml, "mL"),
            ("lye_volume", lye_ml, "mL"),
            ("dish", dish, "g"),
            ("dish_and_soap", full, "g"),
        ):
            self._put(name, self._type(value, unit))
        #: Figures of the volume of lye, as it was read.
        self.lye_figures = 3 if lye_ml >= 10 else 2
        oil = self._oil_amount(oil_ml)
        lye = self._lye_amount(lye_ml)
        self.answers["limiting"] = Chosen(("oil",))
        self._yield(oil, full - dish)
        left = self._answer("lye_left", lye - self._way(3 * oil), "mol")
        self._answer("acid_mass", self._way(left / 3) * self._acid, "g")

    def _oil_amount(self, oil_ml: Decimal) -> Decimal:
        mass = self._answer("oil_mass", oil_ml * Decimal("0.911"), "g")
        return self._answer("oil_amount", mass / self._oil, "mol")

    def _lye_amount(self, lye_ml: Decimal) -> Decimal:
        whole = self._way(lye_ml * Decimal("1.219"))
        pure = self._way(whole * Decimal("0.200"))
        return self._answer("lye_amount", pure / self._lye, "mol")

    def _yield(self, oil: Decimal, soap_g: Decimal) -> None:
        molar = self._derive()
        soap = self._answer("soap_amount", 3 * oil, "mol")
        most = self._answer("theoretical_yield", soap * molar, "g")
        weighed = self._answer("soap_mass", soap_g, "g")
        if self._chance.random() < 0.5:
            self._answer("percent_yield", 100 * self._way(weighed / most), "%")
        else:
            self._answer("percent_yield", 100 * weighed / most, "%")

    def _derive(self) -> Decimal:
        """Derive the molar mass of the soap from the oil's, as the sheet prints it."""
        oil, backbone = Decimal("885.45"), self._mass({"C": 3, "H": 5})
        sodium = Decimal(self.habit.weights["Na"])
        third = self._way(self._way(oil - backbone) / 3)
        molar = third + sodium
        carried = self._answer("soap.molar_mass", molar, "g/mol")
        text = self.answers["soap.molar_mass"]
        assert isinstance(text, Typed)
        lines = self._chance.choice(
            [
                ("oil = C3H5 + 3x", "x = (oil - C3H5)/3", "soap = x + Na"),
                (
                    "3x + C3H5 = oil",
                    f"x = ({oil} - {backbone}) / 3",
                    f"x = {self._round(third, max(self.habit.figures, 3))}",
                    "soap = x + Na",
                    f"soap = {self._round(molar, max(self.habit.figures, 3))}",
                ),
                (f"soap = (oil − {backbone})÷3 + {sodium}",),
                ("soap = (oil - M(C3H5))/3 + M(Na)", "3 soap = oil - C3H5 + 3 Na"),
            ]
        )
        self.answers["soap.molar_mass"] = Derived(lines, text.text)
        return carried

    def _type(self, value: Decimal, unit: str) -> str:
        """Type a value in one of the ways in which students do."""
        symbol, power = self._chance.choice(_UNITS[unit])
        scaled = value.scaleb(power)
        number = self._chance.choice([_plain, _comma, _tens, _e])(scaled)
        space = self._chance.choice(["", " ", "\N{NO-BREAK SPACE}"])
        return f"{number}{space}{symbol}"


def _plain(value: Decimal) -> str:
    return f"{value:f}"


def _comma(value: Decimal) -> str:
    """Type a decimal comma where it can't be taken for a thousands mark."""
    whole, _, decimals = f"{value:f}".partition(".")
    return f"{whole},{decimals}" if len(decimals) not in {0, 3} else _plain(value)


def _tens(value: Decimal) -> str:
    power = value.adjusted()
    return f"{value.scaleb(-power):f} × 10^{power}"


def _e(value: Decimal) -> str:
    power = value.adjusted()
    return f"{value.scaleb(-power):f}e{power}"
