"""What every table keeps to."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from workbook.labfile.table import Asking, Named, Table


def test_a_table_is_frozen() -> None:
    step = Asking(asks="Which?")
    with pytest.raises(ValidationError, match="frozen"):
        step.asks = "What?"


def test_a_key_that_a_table_does_not_know_is_told_with_those_it_knows() -> None:
    with pytest.raises(ValidationError, match="known are asks, gate, name"):
        Named.model_validate({"name": "first", "asks": "?", "nam": "second"})


def test_a_table_without_keys_takes_none() -> None:
    with pytest.raises(ValidationError, match="'x' is not a key"):
        Table.model_validate({"x": 1})
