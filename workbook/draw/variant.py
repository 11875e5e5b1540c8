"""Which variant of a lab a student has: drawn like a value, by key, lab and student."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from workbook.draw.key import CourseKey
    from workbook.labfile.half import PublicHalf

#: Stands where the name of a quantity does; none can be called so.
_NAME = "[variants]"

#: Bits of a number of the key.
_KEY_BITS = 256


def choose_variant(key: CourseKey, public: PublicHalf, student: str) -> str:
    """
    Return the variant of a lab that one student has.

    Parameters
    ----------
    key : CourseKey
        The course's secret.
    public : PublicHalf
        The lab, with its other variants.
    student : str
        The student's id.

    Returns
    -------
    str
        Each as often as the others; the usual one where there is no other.
    """
    variants = tuple(public.ways)
    drawn = key.number(public.name, str(public.revision), student, _NAME, "0")
    return variants[drawn * len(variants) >> _KEY_BITS]
