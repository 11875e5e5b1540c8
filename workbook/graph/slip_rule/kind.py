"""The closed list of mistakes that a number can show, each under a name of ours."""

from __future__ import annotations

from enum import Enum


class SlipKind(Enum):
    """
    A known mistake; its text is what a lab file calls it.

    What a student reads of each stands in ``sentences.toml`` beside this module.
    """

    # Any factor of a product.
    FACTOR_UPSIDE_DOWN = "factor_upside_down"
    FACTOR_LEFT_OUT = "factor_left_out"
    FACTOR_TWICE = "factor_twice"
    FRACTION_UPSIDE_DOWN = "fraction_upside_down"

    # Density.
    DENSITY_UPSIDE_DOWN = "density_upside_down"
    DENSITY_LEFT_OUT = "density_left_out"
    DENSITY_TWICE = "density_twice"
    DENSITY_OF_ANOTHER = "density_of_another"
    DENSITY_OF_SOLUTE = "density_of_solute"
    VOLUME_AS_MASS = "volume_as_mass"

    # The strength of a solution.
    SOLUTION_AS_PURE = "solution_as_pure"
    SOLUTION_DENSITY_LEFT_OUT = "solution_density_left_out"
    SOLUTION_DENSITY_UPSIDE_DOWN = "solution_density_upside_down"
    SOLUTION_DENSITY_TWICE = "solution_density_twice"
    PERCENT_AS_MOLARITY = "percent_as_molarity"
    PERCENT_NOT_DIVIDED = "percent_not_divided"
    PERCENT_UPSIDE_DOWN = "percent_upside_down"
    CONCENTRATION_UPSIDE_DOWN = "concentration_upside_down"
    CONCENTRATION_LEFT_OUT = "concentration_left_out"
    CONCENTRATION_FOR_AMOUNT = "concentration_for_amount"
    AMOUNT_FOR_CONCENTRATION = "amount_for_concentration"
    CONCENTRATION_OF_ANOTHER = "concentration_of_another"
    MASS_PER_VOLUME_AS_SHARE = "mass_per_volume_as_share"
    STOCK_CONCENTRATION = "stock_concentration"
    WATER_COUNTED_IN = "water_counted_in"

    # Molar masses.
    MOLAR_MASS_UPSIDE_DOWN = "molar_mass_upside_down"
    MOLAR_MASS_LEFT_OUT = "molar_mass_left_out"
    MOLAR_MASS_OF_ANOTHER = "molar_mass_of_another"
    COEFFICIENT_IN_MOLAR_MASS = "coefficient_in_molar_mass"
    SUBSCRIPT_LOST = "subscript_lost"
    BRACKETS_MISREAD = "brackets_misread"
    CRYSTAL_WATER_LEFT_OUT = "crystal_water_left_out"
    CRYSTAL_WATER_MISREAD = "crystal_water_misread"
    ATOMIC_NUMBERS = "atomic_numbers"
    WHOLE_ATOMIC_WEIGHTS = "whole_atomic_weights"
    HYDROGEN_MISCOUNTED = "hydrogen_miscounted"
    SALT_AND_ACID_MIXED = "salt_and_acid_mixed"
    LEAVING_MOLECULE_KEPT = "leaving_molecule_kept"

    # Coefficients.
    COEFFICIENTS_LEFT_OUT = "coefficients_left_out"
    RATIO_UPSIDE_DOWN = "ratio_upside_down"
    RATIO_TWICE = "ratio_twice"
    RATIO_OF_ANOTHER_PAIR = "ratio_of_another_pair"
    RATIO_ON_GRAMS = "ratio_on_grams"
    SUBSCRIPT_AS_COEFFICIENT = "subscript_as_coefficient"
    ANOTHER_PRODUCT = "another_product"

    # The limiting reagent.
    REAGENT_IN_EXCESS = "reagent_in_excess"
    AMOUNTS_ADDED = "amounts_added"

    # Differences and sums.
    TARE_LEFT_ON = "tare_left_on"
    TARE_TWICE = "tare_twice"
    TARE_ADDED = "tare_added"
    TARE_ALONE = "tare_alone"
    START_IGNORED = "start_ignored"
    REST_FOR_DELIVERED = "rest_for_delivered"
    DIFFERENCE_REVERSED = "difference_reversed"
    CONSUMPTION_IGNORED = "consumption_ignored"
    CONSUMPTION_FOR_REST = "consumption_for_rest"
    CONSUMPTION_ADDED = "consumption_added"
    TERM_LEFT_OUT = "term_left_out"
    TERM_SIGN_TURNED = "term_sign_turned"

    # Yields.
    YIELD_UPSIDE_DOWN = "yield_upside_down"
    COMPARED_WITH_REAGENT = "compared_with_reagent"
    MISSED_SHARE = "missed_share"
    DIFFERENCE_FOR_YIELD = "difference_for_yield"
    AMOUNTS_WITHOUT_RATIO = "amounts_without_ratio"
    GRAMS_BY_MOLES = "grams_by_moles"
    RECOVERY_FOR_YIELD = "recovery_for_yield"
    PLANNED_VALUE = "planned_value"
    PART_NOT_SCALED = "part_not_scaled"
    YIELDS_AVERAGED = "yields_averaged"
    YIELDS_ADDED = "yields_added"
    ONE_STEP_FOR_ALL = "one_step_for_all"
    ALL_COEFFICIENTS_LEFT_OUT = "all_coefficients_left_out"

    # Waste.
    EQUAL_VOLUMES = "equal_volumes"
    EQUAL_MASSES = "equal_masses"

    # Units and powers of ten.
    PERCENT_AS_SHARE = "percent_as_share"
    PERCENT_TWICE = "percent_twice"
    THOUSAND = "thousand"
    MILLION = "million"
    TEN = "ten"
    GAS_VOLUME = "gas_volume"
    CELSIUS = "celsius"

    # Logarithms.
    LOGARITHM_SIGN = "logarithm_sign"
    NATURAL_LOGARITHM = "natural_logarithm"
    LOGARITHM_LEFT_OUT = "logarithm_left_out"
    OTHER_ION = "other_ion"
    IONS_MISCOUNTED = "ions_miscounted"
    POWER_SIGN = "power_sign"
    POWER_LEFT_OUT = "power_left_out"
    NATURAL_POWER = "natural_power"

    # A molar mass by algebra.
    DIVIDED_ONE_TERM = "divided_one_term"
    DIVIDED_TOO_EARLY = "divided_too_early"
    DIVIDED_TOO_MUCH = "divided_too_much"
    SIGN_KEPT = "sign_kept"
    COEFFICIENT_OFF_ONE_TERM = "coefficient_off_one_term"
    NEVER_DIVIDED = "never_divided"
    REAGENT_FORGOTTEN = "reagent_forgotten"
    BYPRODUCT_FORGOTTEN = "byproduct_forgotten"
    WHOLE_BYPRODUCT_REMOVED = "whole_byproduct_removed"
    ION_FORGOTTEN = "ion_forgotten"
    CHARGE_AS_MASS = "charge_as_mass"
    ACID_FOR_SALT = "acid_for_salt"
    ACID_HYDROGEN_KEPT = "acid_hydrogen_kept"
    HYDROGEN_LOST = "hydrogen_lost"
    ONLY_DIVIDED = "only_divided"
    ANOTHER_METAL = "another_metal"
    WATER_MISCOUNTED = "water_miscounted"
    WRONG_DIVISOR = "wrong_divisor"

    # What is found in the number that was typed, and in no relation.
    EXPONENT_SIGN = "exponent_sign"
    ROUNDED_EARLY = "rounded_early"
    CUT_OFF = "cut_off"

    # What is found in a reading, by its instrument.
    MENISCUS_RIM = "meniscus_rim"
    LINE_BELOW = "line_below"
    NEAREST_LINE = "nearest_line"
    DIVISION_MISJUDGED = "division_misjudged"
    COUNTED_UPWARDS = "counted_upwards"
    DIGITS_SWAPPED = "digits_swapped"

    # What is found in a range.
    ONE_END = "one_end"
    RANGE_REVERSED = "range_reversed"

    # What is found in the choice of a reagent.
    FEWEST_MOLES = "fewest_moles"
    COEFFICIENTS_EXCHANGED = "coefficients_exchanged"
    SMALLEST_MASS = "smallest_mass"
    SMALLEST_VOLUME = "smallest_volume"

    #: An author's own.
    OWN = "own"
