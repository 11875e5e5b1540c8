"""
The charge at the end of a formula, told from the count of the last atom.

In plain text the two look alike: ``SO42-`` is one sulfate to its writer and 42
oxygens to a program. What can be taken in two ways is refused here, with both
ways spelled out.
"""

from __future__ import annotations

import re

from workbook.errors import FormulaError

_PLAIN = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻−–", "0123456789+---")

_SIGN = r"[+\-−–⁺⁻]"

#: Endings that say for certain where the charge begins.
_CERTAIN = re.compile(
    rf"""
    (?: \s*\^ (?P<number>[0-9]{{0,2}}) (?P<sign>{_SIGN})     # SO4^2-  Na^+
      | \s*\^ (?P<sign_first>{_SIGN}) (?P<after>[0-9]{{1,2}})  # SO4^-2
      | \s+ (?P<apart>[0-9]{{1,2}}) (?P<apart_sign>{_SIGN})    # SO4 2-
      | \s* (?P<above>[¹²³⁴-⁹][⁰¹²³⁴-⁹]?) (?P<above_sign>[⁺⁻])   # SO₄²⁻
      | (?<=[\]₀-₉]) (?P<close>[0-9]) (?P<close_sign>{_SIGN})  # [Cu(NH3)4]2+
    )\Z
    """,
    re.VERBOSE,
)
_BARE = re.compile(rf"(?P<digits>[0-9]*)(?P<sign>{_SIGN})\Z")
_LONE_ATOM = re.compile(r"[A-Z][a-z]*\Z")

#: Up to this one, the digit before a bare sign is as often the charge as the count.
_LIKELY_CHARGE = 2


def split_charge(text: str) -> tuple[str, int]:
    """
    Return a formula without its charge, and the charge.

    Parameters
    ----------
    text : str
        A formula without space at its ends.

    Returns
    -------
    tuple of str and int
        The rest of the text, and the charge [elementary charges].

    Raises
    ------
    FormulaError
        If a digit before the sign may be a count or a charge, or the charge is 0.

    Notes
    -----
    A single digit from 3 up counts atoms when it follows an atom of a larger
    ion, as in ``NH4+`` and ``NO3-``: no common ion has it otherwise. After a 1 or
    a 2, a round bracket or a lone atom (``FeSCN2+``, ``NO2-``, ``Fe3+``, ``I3-``)
    both readings are in use, so the writer has to say which.

    Examples
    --------
    >>> split_charge("SO4^2-"), split_charge("NH4+")
    (('SO4', -2), ('NH4', 1))
    """
    if match := _CERTAIN.search(text):
        number, sign = _two_of(match)
        charge = int(number.translate(_PLAIN) or 1)
        if charge == 0:
            reason = "its charge is 0; leave that out."
            raise FormulaError(text, match.start(), reason)
        return text[: match.start()], _signed(charge, sign)
    if match := _BARE.search(text):
        _refuse_doubt(text, match)
        return text[: match.start("sign")], _signed(1, match["sign"])
    return text, 0


def _two_of(match: re.Match[str]) -> tuple[str, str]:
    """Return number and sign from whichever spelling matched."""
    found = {name: value for name, value in match.groupdict().items() if value}
    signs = [name for name in found if name.startswith("sign") or "_sign" in name]
    numbers = [name for name in found if name not in signs]
    return found[numbers[0]] if numbers else "", found[signs[0]]


def _signed(size: int, sign: str) -> int:
    return size if sign.translate(_PLAIN) == "+" else -size


def _refuse_doubt(text: str, match: re.Match[str]) -> None:
    digits, sign = match["digits"], match["sign"].translate(_PLAIN)
    before = text[: match.start("digits")]
    certain = not digits or (
        len(digits) == 1
        and int(digits) > _LIKELY_CHARGE
        and not before.endswith(")")
        and _LONE_ATOM.match(before) is None
    )
    if certain:
        return
    counted = f"{before}{digits}^{sign}"
    charged = f"{before}{digits[:-1]}^{digits[-1]}{sign}"
    reason = (
        f"{digits + sign!r} at its end can be a count or a charge. "
        f"Write {counted!r} or {charged!r}, whichever is meant."
    )
    raise FormulaError(text, match.start("digits"), reason)
