"""Solutions: molarity, mass fraction, mass per volume, and what a volume holds."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from workbook.errors import MatterError

_ML_PER_L = Decimal(1000)


@dataclass(frozen=True, slots=True)
class Solution:
    """
    A solution of one solute.

    Raises
    ------
    MatterError
        If a value is not above 0, or there is more solute than solution.

    Examples
    --------
    >>> acid = Solution.of_molarity(Decimal("0.905"), Decimal("98.072"))
    >>> acid.amount_in(Decimal("8.17"))
    Decimal('0.00739385')
    """

    #: Mass of solute in a volume of solution [g/L].
    mass_per_volume: Decimal
    #: Of the solute [g/mol].
    molar_mass: Decimal
    #: Of the solution [g/mL]; None if not known.
    density: Decimal | None = None

    def __post_init__(self) -> None:
        _require_positive("mass per volume", self.mass_per_volume, "g/L")
        _require_positive("molar mass", self.molar_mass, "g/mol")
        if self.density is None:
            return
        _require_positive("density", self.density, "g/mL")
        if self.mass_per_volume > self.density * _ML_PER_L:
            msg = (
                f"A litre of solution can't hold {self.mass_per_volume:f} g of solute "
                f"when it weighs {self.density * _ML_PER_L:f} g in all. Check the "
                "strength, the density and their units."
            )
            raise MatterError(msg)

    @classmethod
    def of_molarity(
        cls, molarity: Decimal, molar_mass: Decimal, density: Decimal | None = None
    ) -> Solution:
        """
        Return the solution of a molarity.

        Parameters
        ----------
        molarity : Decimal
            Amount of solute per volume of solution [mol/L].
        molar_mass : Decimal
            Of the solute [g/mol].
        density : Decimal or None
            Of the solution [g/mL]; None if not known.

        Returns
        -------
        Solution
            Of that strength.

        Raises
        ------
        MatterError
            If a value is not above 0, or there is more solute than solution.
        """
        _require_positive("molarity", molarity, "mol/L")
        return cls(molarity * molar_mass, molar_mass, density)

    @classmethod
    def of_mass_fraction(
        cls, mass_fraction: Decimal, density: Decimal, molar_mass: Decimal
    ) -> Solution:
        """
        Return the solution of a mass fraction.

        Parameters
        ----------
        mass_fraction : Decimal
            Mass of solute over mass of solution: 0.200 for 20.0 % [g/g].
        density : Decimal
            Of the solution [g/mL].
        molar_mass : Decimal
            Of the solute [g/mol].

        Returns
        -------
        Solution
            Of that strength.

        Raises
        ------
        MatterError
            If a value is not above 0, or the fraction is above 1.

        Examples
        --------
        >>> lye = Solution.of_mass_fraction(
        ...     Decimal("0.200"), Decimal("1.219"), Decimal("39.997")
        ... )
        >>> lye.mass_per_volume
        Decimal('243.800000')
        """
        _require_positive("mass fraction", mass_fraction, "g/g")
        if mass_fraction > 1:
            msg = (
                f"A mass fraction of {mass_fraction:f} is above 1. "
                "Give 20.0 % as 0.200."
            )
            raise MatterError(msg)
        return cls(mass_fraction * density * _ML_PER_L, molar_mass, density)

    @property
    def molarity(self) -> Decimal:
        """Amount of solute per volume of solution [mol/L]."""
        return self.mass_per_volume / self.molar_mass

    @property
    def mass_fraction(self) -> Decimal:
        """
        Mass of solute over mass of solution [g/g].

        Raises
        ------
        MatterError
            If the density of the solution is not known.
        """
        if self.density is None:
            msg = "A mass fraction needs the density of the solution; give it in g/mL."
            raise MatterError(msg)
        return self.mass_per_volume / (self.density * _ML_PER_L)

    def mass_in(self, volume_ml: Decimal) -> Decimal:
        """
        Return the mass of solute in a volume of solution.

        Parameters
        ----------
        volume_ml : Decimal
            Of the solution [mL].

        Returns
        -------
        Decimal
            Of the solute [g].

        Raises
        ------
        MatterError
            If the volume is not above 0.
        """
        _require_positive("volume", volume_ml, "mL")
        return self.mass_per_volume * volume_ml / _ML_PER_L

    def amount_in(self, volume_ml: Decimal) -> Decimal:
        """
        Return the amount of solute in a volume of solution.

        Parameters
        ----------
        volume_ml : Decimal
            Of the solution [mL].

        Returns
        -------
        Decimal
            Of the solute [mol].

        Raises
        ------
        MatterError
            If the volume is not above 0.
        """
        return self.mass_in(volume_ml) / self.molar_mass

    def volume_of(self, amount_mol: Decimal) -> Decimal:
        """
        Return the volume of solution that holds an amount of solute.

        Parameters
        ----------
        amount_mol : Decimal
            Of the solute [mol].

        Returns
        -------
        Decimal
            Of the solution [mL].

        Raises
        ------
        MatterError
            If the amount is not above 0.
        """
        _require_positive("amount", amount_mol, "mol")
        return amount_mol * self.molar_mass / self.mass_per_volume * _ML_PER_L

    def dilute(self, volume_ml: Decimal, to_ml: Decimal) -> Solution:
        """
        Return the solution that a volume becomes when it is filled up with solvent.

        Parameters
        ----------
        volume_ml : Decimal
            What is taken of this solution [mL].
        to_ml : Decimal
            The volume that it is filled up to [mL].

        Returns
        -------
        Solution
            Its density is not known.

        Raises
        ------
        MatterError
            If a volume is not above 0, or the second is the smaller one.
        """
        mass_g = self.mass_in(volume_ml)
        _require_positive("volume to fill up to", to_ml, "mL")
        if to_ml < volume_ml:
            msg = f"{volume_ml:f} mL can't be filled up to {to_ml:f} mL; that is less."
            raise MatterError(msg)
        return replace(self, mass_per_volume=mass_g / to_ml * _ML_PER_L, density=None)


def _require_positive(name: str, value: Decimal, unit: str) -> None:
    if not (value.is_finite() and value > 0):
        msg = f"The {name} is {value} {unit}; it must be a number above 0."
        raise MatterError(msg)
