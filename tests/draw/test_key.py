"""The secret of a course: HMAC by the book, and a key that stays where it is."""

from __future__ import annotations

import copy
import hashlib
import hmac
import pickle
from typing import TYPE_CHECKING

import pytest

from workbook.draw.key import KEY_LENGTH, CourseKey, new_key, read_key, write_key
from workbook.errors import TaskError

if TYPE_CHECKING:
    from pathlib import Path

SECRET = bytes(range(32))
KEY = CourseKey(SECRET)


def by_hand(secret: bytes, message: bytes) -> bytes:
    """Work out HMAC-SHA-256 as RFC 2104, section 2, writes it down."""
    block = secret.ljust(64, b"\0")
    inner = bytes(byte ^ 0x36 for byte in block)
    outer = bytes(byte ^ 0x5C for byte in block)
    within = hashlib.sha256(inner + message).digest()
    return hashlib.sha256(outer + within).digest()


def test_the_hand_made_hmac_gives_the_published_digest() -> None:
    # RFC 4231, section 4.3, test case 2: the key "Jefe". A course key has 32 bytes,
    # and the test cases there have other lengths, so the second method is held to it.
    message = b"what do ya want for nothing?"
    assert by_hand(b"Jefe", message).hex() == (
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    )


@pytest.mark.parametrize(
    "parts",
    [
        ("olive-oil-soap", "1", "s01", "oil_volume", "0"),
        ("seife", "2", "Zoë", "öl", "199"),
        ("",),
    ],
)
def test_a_number_is_the_hmac_of_its_name(parts: tuple[str, ...]) -> None:
    message = b"\0".join(part.encode("utf-8") for part in parts)
    number = KEY.number(*parts)
    assert number == int.from_bytes(by_hand(SECRET, message), "big")
    assert number == int(hmac.new(SECRET, message, "sha256").hexdigest(), 16)


def test_parts_are_told_apart() -> None:
    assert KEY.number("ab", "c") != KEY.number("a", "bc")
    assert KEY.number("a", "") != KEY.number("a")


def test_a_part_with_a_null_character_is_refused() -> None:
    with pytest.raises(ValueError, match="null character"):
        KEY.number("a\0b", "c")


def test_another_key_gives_another_number() -> None:
    other = CourseKey(bytes(range(1, 33)))
    assert other.number("a") != KEY.number("a")


def test_a_seal_is_known_again_and_no_other_is() -> None:
    seal = KEY.seal("digest")
    assert KEY.is_seal(seal, "digest")
    assert not KEY.is_seal(seal, "other digest")
    assert not KEY.is_seal("0" * 64, "digest")
    assert not CourseKey(bytes(32)).is_seal(seal, "digest")


@pytest.mark.parametrize("seal", ["", "ü", "\ud800", "a" * 10_000])
def test_a_seal_that_is_none_is_only_no_seal(seal: str) -> None:
    assert not KEY.is_seal(seal, "digest")


def test_a_seal_is_not_a_value_of_the_same_name() -> None:
    assert int(KEY.seal("digest"), 16) != KEY.number("digest")


@pytest.mark.parametrize("length", [0, 31, 33])
def test_a_key_of_another_length_is_refused(length: int) -> None:
    with pytest.raises(TaskError, match=f"has 32 bytes; this one has {length}"):
        CourseKey(bytes(length))


def test_a_key_shows_itself_to_nobody() -> None:
    for shown in (repr(KEY), str(KEY), f"{KEY}", repr([KEY]), repr(vars(type(KEY)))):
        assert SECRET.hex() not in shown
        assert repr(SECRET) not in shown


@pytest.mark.parametrize("protocol", range(pickle.HIGHEST_PROTOCOL + 1))
def test_a_key_is_not_pickled(protocol: int) -> None:
    with pytest.raises(TypeError, match="not pickled or copied"):
        pickle.dumps(KEY, protocol)


def test_a_key_is_not_copied() -> None:
    for duplicate in (copy.copy, copy.deepcopy):
        with pytest.raises(TypeError, match="not pickled or copied"):
            duplicate(KEY)


def test_new_keys_differ() -> None:
    assert new_key().number("a") != new_key().number("a")


def test_a_key_file_is_for_its_owner_alone(tmp_path: Path) -> None:
    path = tmp_path / "course.key"
    write_key(KEY, path)
    assert path.stat().st_mode & 0o777 == 0o600


def test_a_key_comes_back_from_its_file(tmp_path: Path) -> None:
    path = tmp_path / "course.key"
    write_key(KEY, path)
    assert read_key(path).number("a") == KEY.number("a")
    assert path.read_text() == SECRET.hex() + "\n"


def test_a_key_file_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "course.key"
    write_key(KEY, path)
    with pytest.raises(TaskError, match="exists already"):
        write_key(new_key(), path)
    assert read_key(path).number("a") == KEY.number("a")


def test_a_key_that_is_not_there_is_told_with_its_path(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match=r"course\.key: the course key is not there"):
        read_key(tmp_path / "course.key")


@pytest.mark.parametrize("text", ["", "00" * 31, "00" * 33, "zz" * 32, "é" * 64])
def test_a_file_that_holds_no_key_is_told_with_its_path(
    tmp_path: Path, text: str
) -> None:
    path = tmp_path / "course.key"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(TaskError, match=r"course\.key: this is not a course key"):
        read_key(path)


def test_a_folder_is_no_key_file(tmp_path: Path) -> None:
    with pytest.raises(TaskError, match="can't be opened"):
        read_key(tmp_path)


def test_a_key_is_as_long_as_the_hash() -> None:
    assert hashlib.sha256().digest_size == KEY_LENGTH
