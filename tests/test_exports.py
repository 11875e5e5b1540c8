"""What a package exports is what its ``__init__`` brings in: listed, sorted, few."""

from __future__ import annotations

import ast
import importlib
from pathlib import Path

import pytest

import workbook

ROOT = Path(workbook.__file__).parent
PACKAGES = sorted(path.parent for path in ROOT.rglob("__init__.py"))

#: More names than this, and nobody knows a part's surface.
MOST_NAMES = 8


def public_names(source: str) -> list[str]:
    """
    Return the public names that a module defines, or imports from the package.

    What is imported for annotations only does not exist when the module runs.
    """
    names: list[str] = []
    for node in ast.parse(source).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names.append(node.name)
        elif isinstance(node, ast.ImportFrom) and node.module != "__future__":
            if (node.module or "").startswith("workbook"):
                names += [alias.asname or alias.name for alias in node.names]
        elif isinstance(node, ast.Assign):
            names += [of.id for of in node.targets if isinstance(of, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names.append(node.target.id)
    return sorted(name for name in names if not name.startswith("_"))


@pytest.mark.parametrize("package", PACKAGES, ids=lambda path: path.name)
def test_a_package_lists_its_public_names_sorted(package: Path) -> None:
    source = (package / "__init__.py").read_text(encoding="utf-8")
    dotted = ".".join(package.relative_to(ROOT.parent).parts)
    module = importlib.import_module(dotted)
    assert list(getattr(module, "__all__", [])) == public_names(source)


@pytest.mark.parametrize("package", PACKAGES, ids=lambda path: path.name)
def test_what_a_package_lists_is_there_and_little(package: Path) -> None:
    dotted = ".".join(package.relative_to(ROOT.parent).parts)
    module = importlib.import_module(dotted)
    listed = getattr(module, "__all__", [])
    assert [name for name in listed if not hasattr(module, name)] == []
    assert len(listed) <= MOST_NAMES


@pytest.mark.parametrize(
    ("source", "names"),
    [
        ('"""Only a sentence."""', []),
        (
            "from workbook.errors import TaskError, DrawError",
            ["DrawError", "TaskError"],
        ),
        ("from typing import TYPE_CHECKING", []),
        ("if True:\n    from workbook.front.page import Page", []),
        ("def open_sheet(): ...\ndef _hidden(): ...", ["open_sheet"]),
        ("LIMIT = 3\nSIZE: int = 4\n__all__ = ['LIMIT']", ["LIMIT", "SIZE"]),
    ],
)
def test_public_names_are_told_from_others(source: str, names: list[str]) -> None:
    assert public_names(source) == names
