"""A student image without a service."""

from __future__ import annotations

import pytest

from workbook.client import absent
from workbook.client.absent import AbsentChecker, has_solver
from workbook.errors import CheckerAwayError
from workbook.wire.message import OpenSheet


def test_whoever_asks_is_told_what_to_do() -> None:
    checker = AbsentChecker()
    with pytest.raises(CheckerAwayError, match=r"put checker\.json back"):
        checker.ask(OpenSheet(), task="test", limit_s=1)
    assert "no checker is named" in checker.look()
    checker.close()


def test_the_whole_package_has_a_solver() -> None:
    assert has_solver()


def test_without_its_module_there_is_no_solver(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(absent, "_SOLVER", "workbook.no_such_part")
    assert not has_solver()
