"""A lab is shown as a student sees it, with the key beside it, as it was saved last."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import pytest

from tests.support.lab import CHALK, edit
from workbook.authoring.preview import PATH_FILE, Preview, open_preview
from workbook.client.place import Part

if TYPE_CHECKING:
    from pathlib import Path

GAS = ('name = "carbon dioxide"', 'name = "carbon dioxide"\nsmiles = "O=C=O"')


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    """Return the folder of the chalk lab."""
    folder = tmp_path / "chalk"
    folder.mkdir()
    save(folder)
    return folder


@pytest.fixture
def place(tmp_path: Path, lab: Path) -> Path:
    """Return the folder of a preview."""
    folder = tmp_path / "previews"
    folder.mkdir()
    (folder / PATH_FILE).write_text(f"{lab}\n", encoding="utf-8")
    return folder


def save(folder: Path, *edits: tuple[str, str]) -> None:
    """Write the lab file as an author saves it."""
    (folder / "lab.toml").write_text(edit(CHALK, *edits), encoding="utf-8")


def words(preview: Preview) -> str:
    """Return what stands above the cards."""
    head = preview.pairs.children[0].children[0].children[0]
    return str(head.children[0].outputs)


def key(preview: Preview) -> str:
    """Return what stands beside the words and the cards."""
    return "".join(pair.children[1].value for pair in preview.pairs.children)


def test_both_sides_show_the_same_variant(place: Path) -> None:
    preview = open_preview(place)
    assert "Key of variant 1" in key(preview)
    # The words with the head, and the two steps before the lab.
    assert len(preview.pairs.children) == 3
    assert "Chalk in acid" in words(preview)
    assert 'role="status"' in preview.says.value


def test_another_variant_has_other_values_and_the_same_ones_again(place: Path) -> None:
    preview = open_preview(place)
    first = key(preview)
    preview.variant.value = 2
    second = key(preview)
    preview.variant.value = 1
    assert key(preview) == first
    assert "Key of variant 2" in second


def test_the_steps_after_the_lab_are_shown_with_their_readings(place: Path) -> None:
    preview = open_preview(place)
    preview.part.value = Part.POSTLAB
    assert len(preview.pairs.children) == 1 + 10


def test_a_saved_file_is_shown_anew(place: Path, lab: Path) -> None:
    preview = open_preview(place)
    assert not preview.look_again()
    save(lab, ('"Chalk in acid"', '"Chalk in vinegar, strong"'))
    assert preview.look_again()
    assert "Chalk in vinegar, strong" in words(preview)


def test_a_mistake_is_told_and_the_lab_before_it_stays(place: Path, lab: Path) -> None:
    preview = open_preview(place)
    before = key(preview)
    save(lab, ("revision = 1", "revision = 0"))
    assert preview.look_again()
    assert "lab.revision: 0 stands here" in preview.says.value
    assert key(preview) == before
    save(lab)
    preview.look_again()
    assert "To mend" not in preview.says.value


def test_a_file_that_goes_away_for_a_moment_is_told(place: Path, lab: Path) -> None:
    preview = open_preview(place)
    (lab / "lab.toml").unlink()
    assert preview.look_again()
    assert "there is no such file" in preview.says.value


def test_in_a_loop_the_file_is_followed(
    place: Path, lab: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("workbook.authoring.preview._LOOK_S", 0.01)

    async def write_and_wait() -> str:
        preview = open_preview(place)
        save(lab, ('"Chalk in acid"', '"Chalk, followed"'))
        while "followed" not in words(preview):  # noqa: ASYNC110  nothing tells of it
            await asyncio.sleep(0.01)
        assert preview.following is not None
        preview.following.cancel()
        return words(preview)

    said = asyncio.run(asyncio.wait_for(write_and_wait(), timeout=20))
    assert "Chalk, followed" in said


def test_nothing_is_written_into_the_labs_folder(place: Path, lab: Path) -> None:
    save(lab, GAS)
    open_preview(place)
    assert [path.name for path in lab.iterdir()] == ["lab.toml"]
