"""Filling a folder whole or not at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from workbook.errors import TaskError
from workbook.store.folder import is_free, make_folder, set_aside

if TYPE_CHECKING:
    from pathlib import Path


def test_a_folder_appears_only_when_it_is_whole(tmp_path: Path) -> None:
    place = tmp_path / "deep" / "issued"
    with make_folder(place) as draft:
        (draft / "sheet.json").write_text("{}")
        assert not place.exists()
    assert [each.name for each in place.iterdir()] == ["sheet.json"]
    assert [each.name for each in place.parent.iterdir()] == ["issued"]


def test_a_folder_whose_filling_fails_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), make_folder(tmp_path / "issued") as draft:
        (draft / "sheet.json").write_bytes(b"%d" % (1 // 0))
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_refuses_leaves_nothing(tmp_path: Path) -> None:
    with (
        pytest.raises(TaskError, match="issued can't be written"),
        make_folder(tmp_path / "issued"),
    ):
        raise OSError(28, "No space left on device")
    assert list(tmp_path.iterdir()) == []


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    place = tmp_path / "issued"
    place.mkdir()
    with make_folder(place) as draft:
        (draft / "sheet.json").write_text("{}")
    assert (place / "sheet.json").exists()


def test_a_folder_that_holds_something_is_left_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "work.txt").write_text("mine")
    with pytest.raises(TaskError, match="is there already"), make_folder(tmp_path):
        pass
    assert (tmp_path / "work.txt").read_text() == "mine"


def test_a_replaced_folder_is_kept_beside_the_new_one(tmp_path: Path) -> None:
    place = tmp_path / "marks"
    place.mkdir()
    (place / "marks.csv").write_text("old")
    owned = frozenset({"marks.csv"})
    with make_folder(place, may_replace=True, owned=owned) as draft:
        (draft / "marks.csv").write_text("new")
    assert (place / "marks.csv").read_text() == "new"
    assert (tmp_path / "marks.before-1" / "marks.csv").read_text() == "old"
    assert set_aside(place) == tmp_path / "marks.before-2"


def test_a_folder_with_foreign_files_is_never_set_aside(tmp_path: Path) -> None:
    place = tmp_path / "home"
    place.mkdir()
    (place / "thesis.tex").write_text("years")
    with (
        pytest.raises(TaskError, match=r"also holds 'thesis\.tex'"),
        make_folder(place, may_replace=True, owned=frozenset({"marks.csv"})),
    ):
        pass
    assert (place / "thesis.tex").read_text() == "years"


def test_a_link_is_never_written_through(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "issued"
    link.symlink_to(tmp_path / "elsewhere")
    assert not is_free(link)
    with (
        pytest.raises(TaskError, match="is not a folder"),
        make_folder(link, may_replace=True),
    ):
        pass
