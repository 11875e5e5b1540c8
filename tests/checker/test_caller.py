"""Who asks, and what is their own."""

from __future__ import annotations

import pytest

from tests.support.caller import A1, ADA, B2
from tests.support.soap import COURSE
from workbook.checker.caller import Caller, Porters
from workbook.errors import CheckerRefusedError
from workbook.wire.sheet import SheetId


class OnePorter:
    """Knows one token."""

    def __init__(self, token: str, why: str = "caller") -> None:
        self._token = token
        self._why = why

    def find(self, token: str, address: str = "") -> Caller:
        """Return the caller, or refuse."""
        del address
        if token != self._token:
            raise CheckerRefusedError(self._why, f"{self._token} is known here.")
        return ADA


def test_a_sheet_of_ones_own_may_be_asked_about() -> None:
    assert ADA.owns(A1)
    assert Caller(COURSE, "a1").owns(A1)


@pytest.mark.parametrize(
    "sheet",
    [
        B2,
        SheetId(COURSE, "other-lab", 1, "a1"),
        SheetId("other-course", A1.lab, 1, "a1"),
        SheetId(COURSE, A1.lab, 1, "A1"),
        SheetId(COURSE, A1.lab, 1, ""),
    ],
)
def test_no_other_sheet_may_be_asked_about(sheet: SheetId) -> None:
    assert not ADA.owns(sheet)


def test_each_way_to_find_who_asks_is_tried() -> None:
    porters = Porters(OnePorter("first"), OnePorter("second"))
    assert porters.find("second") == ADA


def test_what_nobody_knows_is_refused_as_the_last_one_says() -> None:
    porters = Porters(OnePorter("first"), OnePorter("second", "away"))
    with pytest.raises(CheckerRefusedError, match="second is known") as caught:
        porters.find("third")
    assert caught.value.code == "away"


def test_without_a_way_nobody_is_known() -> None:
    with pytest.raises(CheckerRefusedError, match="does not know who asks"):
        Porters().find("any")
