"""The table of slips in a lab file."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from workbook.labfile.slip import OwnSlip, SlipsTable

OWN = {"of": "soap_mass", "is": "2 * dish", "says": "You weighed two dishes."}


def test_a_lab_need_not_say_anything_of_slips() -> None:
    assert SlipsTable() == SlipsTable(off=(), own={}, says={})


def test_a_mistake_of_the_lab_is_read_with_its_relation() -> None:
    assert OwnSlip.model_validate(OWN).relation is not None


@pytest.mark.parametrize("says", ["It weighs 12.3 g.", "Take 2 of them.", "M is 40."])
def test_a_sentence_with_a_number_is_refused(says: str) -> None:
    with pytest.raises(ValidationError, match="holds a number"):
        OwnSlip.model_validate(OWN | {"says": says})


@pytest.mark.parametrize("says", ["H2O is missing.", "Ca(OH)2 gives two ions."])
def test_the_subscript_of_a_formula_is_no_number(says: str) -> None:
    assert OwnSlip.model_validate(OWN | {"says": says}).says == says


@pytest.mark.parametrize("missing", ["of", "is", "says"])
def test_a_mistake_needs_all_its_keys(missing: str) -> None:
    with pytest.raises(ValidationError, match=missing):
        OwnSlip.model_validate({k: v for k, v in OWN.items() if k != missing})


def test_a_reworded_sentence_holds_no_number_either() -> None:
    with pytest.raises(ValidationError, match="holds a number"):
        SlipsTable.model_validate({"says": {"ten": "It is 10 times too much."}})
