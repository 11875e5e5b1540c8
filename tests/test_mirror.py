"""Every module has its test file at the same place, and no test file stands alone."""

from __future__ import annotations

from pathlib import Path

import workbook

ROOT = Path(workbook.__file__).parent
TESTS = Path(__file__).parent

#: Tests of the house as a whole, beside which no module stands.
HOUSE = {
    "test_docstrings.py",
    "test_exports.py",
    "test_floors.py",
    "test_messages.py",
    "test_mirror.py",
    "test_style.py",
    "test_types.py",
}

#: Folders of tests that look at several parts at once, or at what ships with them.
WHOLE = {"benchmarks", "browser", "exercises", "hub", "published", "service", "support"}

#: Tests of a part against published values.
PUBLISHED = "test_published_"


def expected_test(module: Path) -> Path:
    """Return where the test file of a module stands, seen from the tests."""
    place = module.relative_to(ROOT)
    return place.with_name(f"test_{place.name}")


def modules() -> list[Path]:
    """Return every module that can be tested by itself."""
    return sorted(
        path
        for path in ROOT.rglob("*.py")
        if path.name not in {"__init__.py", "__main__.py"}
    )


def lonely(tests: set[Path], expected: set[Path]) -> list[str]:
    """Return the test files that mirror no module and are not of the house."""
    return sorted(
        str(path)
        for path in tests - expected
        if path.parts[0] not in HOUSE | WHOLE and not path.name.startswith(PUBLISHED)
    )


def test_every_module_has_its_test_file() -> None:
    missing = [
        str(expected_test(path))
        for path in modules()
        if not (TESTS / expected_test(path)).is_file()
    ]
    assert missing == []


def test_every_test_file_has_its_module() -> None:
    tests = {path.relative_to(TESTS) for path in TESTS.rglob("test_*.py")}
    assert lonely(tests, {expected_test(path) for path in modules()}) == []


def test_every_test_of_the_house_is_there() -> None:
    assert [name for name in sorted(HOUSE) if not (TESTS / name).is_file()] == []


def test_a_lonely_test_file_is_found() -> None:
    tests = {Path("measure/test_unit.py"), Path("test_floors.py"), Path("test_x.py")}
    assert lonely(tests, {Path("test_x.py")}) == ["measure/test_unit.py"]


def test_a_module_in_a_folder_is_mirrored_there() -> None:
    assert expected_test(ROOT / "wire" / "sheet.py") == Path("wire", "test_sheet.py")
