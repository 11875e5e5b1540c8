"""Points and shares, exact from the file on."""

from __future__ import annotations

from decimal import Decimal

import pytest
from pydantic import TypeAdapter, ValidationError

from workbook.labfile.point import Points, Share


@pytest.mark.parametrize(
    ("written", "read"), [(3, "3"), ("0.1", "0.1"), ("12.3456", "12.3456")]
)
def test_points_are_read_exactly(written: object, read: str) -> None:
    assert TypeAdapter(Points).validate_python(written) == Decimal(read)


@pytest.mark.parametrize("written", [0.5, True, "-1", "1e-9", "Infinity", "1001", ""])
def test_what_does_not_add_up_exactly_is_refused(written: object) -> None:
    with pytest.raises(ValidationError):
        TypeAdapter(Points).validate_python(written)


def test_a_share_is_no_more_than_the_whole() -> None:
    assert TypeAdapter(Share).validate_python("0.25") == Decimal("0.25")
    with pytest.raises(ValidationError, match="a share from 0 to 1"):
        TypeAdapter(Share).validate_python("1.5")
