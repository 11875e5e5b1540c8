"""No part may import from a floor above its own, beside it, or from the key side."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import workbook
from tests.support.studentside import STUDENT_SIDE

FLOORS = (
    {"errors"},
    {"measure", "relation", "store"},
    {"matter", "wire"},
    {"labfile", "client"},
    {"graph", "front"},
    {"draw", "picture"},
    {"judge"},
    {"solver"},
    {"marking", "issuing", "checker"},
    {"authoring", "report", "rehearsal"},
    {"command", "desk"},
    {"cli", "__main__"},
)

#: A kernel pays for these per student, or must never hold what they can do.
TOO_HEAVY = {"numpy", "pandas", "pydantic", "sympy"}

ROOT = Path(workbook.__file__).parent
FLOOR = {part: level for level, parts in enumerate(FLOORS) for part in parts}


def modules() -> list[Path]:
    """Return every module of the package."""
    return sorted(ROOT.rglob("*.py"))


def imports(source: str) -> set[str]:
    """Return the parts of the package that *source* imports, at any depth."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        names: list[str] = []
        if isinstance(node, ast.ImportFrom):
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        found |= {name.split(".")[1] for name in names if name.startswith("workbook.")}
    return found


def part_of(path: Path) -> str:
    """Return the part of the package that *path* belongs to; the root is its own."""
    return path.relative_to(ROOT).with_suffix("").parts[0]


def offenders(part: str, source: str) -> list[str]:
    """Return the parts that a module of *part* may not import, and does."""
    seen = imports(source) - {part}
    if part == "__init__":
        return sorted(seen - STUDENT_SIDE)
    upward = {other for other in seen if FLOOR.get(other, 99) >= FLOOR[part]}
    across = seen - STUDENT_SIDE if part in STUDENT_SIDE else set()
    return sorted(upward | across)


@pytest.mark.parametrize(
    "path", modules(), ids=lambda path: str(path.relative_to(ROOT))
)
def test_a_module_imports_downward_and_on_its_own_side(path: Path) -> None:
    assert offenders(part_of(path), path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("part", "source", "wrong"),
    [
        ("measure", "from workbook.wire.sheet import Sheet", ["wire"]),
        ("measure", "from workbook.relation import tree", ["relation"]),
        ("measure", "def f():\n    import workbook.graph.build", ["graph"]),
        ("wire", "from workbook import matter", ["matter"]),
        ("front", "from workbook.labfile import half", ["labfile"]),
        ("front", "from workbook.matter import formula", ["matter"]),
        ("__init__", "from workbook.solver import sheets", ["solver"]),
        ("judge", "from workbook import open_sheet", ["open_sheet"]),
        ("judge", "from workbook.errors import DrawError", []),
        ("front", "from workbook.client import pipe\nimport json", []),
    ],
)
def test_a_planted_import_is_found(part: str, source: str, wrong: list[str]) -> None:
    assert offenders(part, source) == wrong


def test_every_part_stands_on_a_floor() -> None:
    assert {part_of(path) for path in modules()} - {"__init__"} <= set(FLOOR)


def loaded_by(code: str) -> list[str]:
    """Return the modules that a fresh interpreter has loaded after *code*."""
    show = f"import sys\n{code}\nprint(*sys.modules)"
    return subprocess.check_output([sys.executable, "-c", show], text=True).split()


def student_modules() -> list[str]:
    """Return the dotted names of all modules of the student side."""
    return [
        ".".join(path.relative_to(ROOT.parent).with_suffix("").parts)
        for path in modules()
        if part_of(path) in STUDENT_SIDE
    ]


def test_the_package_loads_no_key_side() -> None:
    parts = {
        name.split(".")[1]
        for name in loaded_by("import workbook")
        if name.startswith("workbook.")
    }
    assert parts <= STUDENT_SIDE


def test_the_package_loads_nothing_heavy() -> None:
    assert TOO_HEAVY.isdisjoint(loaded_by("import workbook"))


def test_the_whole_student_side_loads_nothing_heavy_and_no_key_side() -> None:
    loaded = loaded_by("\n".join(f"import {name}" for name in student_modules()))
    assert TOO_HEAVY.isdisjoint(loaded)
    parts = {name.split(".")[1] for name in loaded if name.startswith("workbook.")}
    assert parts == STUDENT_SIDE
