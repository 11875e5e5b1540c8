"""What a unit measures, and how that is said in words."""

from __future__ import annotations

from dataclasses import dataclass

#: The kinds of quantity that are not made of others. A percentage is one of them, so
#: that a fraction never turns silently into a percentage.
BASES = (
    "mass",
    "length",
    "amount of substance",
    "time",
    "temperature",
    "a percentage",
)


@dataclass(frozen=True, slots=True)
class Dimension:
    """
    A product of powers of the base kinds of quantity.

    Parameters
    ----------
    powers : tuple of int
        One power for each of `BASES`, in their order.
    """

    powers: tuple[int, ...]

    def __mul__(self, other: Dimension) -> Dimension:
        return Dimension(
            tuple(a + b for a, b in zip(self.powers, other.powers, strict=True))
        )

    def __truediv__(self, other: Dimension) -> Dimension:
        return self * other**-1

    def __pow__(self, power: int) -> Dimension:
        return Dimension(tuple(power * each for each in self.powers))

    @property
    def words(self) -> str:
        """
        The dimension as a student would say it.

        Examples
        --------
        >>> (MASS / AMOUNT).words
        'molar mass'
        >>> (MASS / TIME).words
        'mass per time'
        """
        return _NAMES.get(self) or self._composed()

    def _composed(self) -> str:
        top = [_raised(b, p) for b, p in zip(BASES, self.powers, strict=True) if p > 0]
        low = [_raised(b, -p) for b, p in zip(BASES, self.powers, strict=True) if p < 0]
        return " per ".join([" times ".join(top) or "one", *low])


def _raised(base: str, power: int) -> str:
    endings = {1: "", 2: " squared", 3: " cubed"}
    return base + endings.get(power, f" to the power {power}")


def _base(name: str) -> Dimension:
    return Dimension(tuple(int(base == name) for base in BASES))


NUMBER = Dimension((0,) * len(BASES))
MASS, LENGTH, AMOUNT, TIME, TEMPERATURE, PERCENTAGE = map(_base, BASES)
VOLUME = LENGTH**3
ENERGY = MASS * LENGTH**2 / TIME**2

_NAMES = {
    NUMBER: "a number without a unit",
    MASS: "mass",
    LENGTH: "length",
    LENGTH**2: "area",
    VOLUME: "volume",
    AMOUNT: "amount of substance",
    TIME: "time",
    TEMPERATURE: "temperature",
    PERCENTAGE: "a percentage",
    MASS / VOLUME: "density",
    VOLUME / MASS: "volume per mass",
    MASS / AMOUNT: "molar mass",
    VOLUME / AMOUNT: "molar volume",
    AMOUNT / VOLUME: "concentration",
    AMOUNT / MASS: "amount per mass",
    ENERGY / VOLUME: "pressure",
    ENERGY: "energy",
    ENERGY / AMOUNT: "energy per amount of substance",
    ENERGY / (AMOUNT * TEMPERATURE): "molar heat capacity",
    ENERGY / (MASS * TEMPERATURE): "specific heat capacity",
}
