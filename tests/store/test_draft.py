"""Hidden names, and forcing to the disk."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from workbook.store.draft import force, force_name, hide

if TYPE_CHECKING:
    from pathlib import Path


def fail(handle: int) -> None:
    """Refuse as a disk does that has no space left."""
    raise OSError(28, os.strerror(28), handle)


def test_a_hidden_name_lies_beside_the_place_and_is_new_each_time(
    tmp_path: Path,
) -> None:
    names = {hide(tmp_path / "marks") for _ in range(100)}
    assert len(names) == 100
    assert {name.parent for name in names} == {tmp_path}
    assert all(name.name.startswith(".marks.") for name in names)


def test_a_disk_that_refuses_is_told_of_content_and_not_of_a_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "marks"
    place.touch()
    monkeypatch.setattr(os, "fsync", fail)
    force_name(place)
    with pytest.raises(OSError, match="No space left"):
        force(place)
