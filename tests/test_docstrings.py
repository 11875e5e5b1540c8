"""Docstrings say what each argument is, its unit, and what is raised; examples run."""

from __future__ import annotations

import ast
import doctest
import importlib
import re
import textwrap
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

import pytest

import workbook
from workbook import errors
from workbook.errors import WorkbookError

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(workbook.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))

Function: TypeAlias = ast.FunctionDef | ast.AsyncFunctionDef

#: Python, the type checker or the command line says what these give; their sentence
#: is enough.
_SPEAK_FOR_THEMSELVES = {
    "cached_property",
    "command",
    "group",
    "overload",
    "override",
    "property",
    "setter",
}

_UNIT = re.compile(r"\[[^\]]+\]")


@dataclass(frozen=True)
class Documented:
    """A public function, and the sections of its docstring."""

    name: str
    node: Function
    sections: dict[str, str]

    def entries(self, section: str) -> dict[str, str]:
        """Return the entries of a section: names on the margin, what is below each."""
        found: dict[str, str] = {}
        names: list[str] = []
        for line in self.sections.get(section, "").splitlines():
            if line and not line.startswith(" "):
                head = line.split(" : ")[0]
                names = [name.strip().lstrip("*") for name in head.split(",")]
                found |= dict.fromkeys(names, "")
            for name in names:
                found[name] += line + "\n"
        return found


def sections(docstring: str) -> dict[str, str]:
    """Return what stands below each underlined heading."""
    found = re.split(
        r"^([A-Z][a-z]+)\n-+\n", textwrap.dedent(docstring), flags=re.MULTILINE
    )
    return dict(zip(found[1::2], found[2::2], strict=True))


def functions(source: str) -> Iterator[Documented]:
    """Give the public functions and methods of a module."""
    tree = ast.parse(source)
    classes = [
        node
        for node in tree.body
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    ]
    owners: list[ast.Module | ast.ClassDef] = [tree, *classes]
    for owner in owners:
        above = f"{owner.name}." if isinstance(owner, ast.ClassDef) else ""
        for node in owner.body:
            if isinstance(node, Function) and is_public(node):
                docstring = ast.get_docstring(node) or ""
                yield Documented(above + node.name, node, sections(docstring))


def is_public(node: Function) -> bool:
    """Return whether a function has to be documented in full."""
    named = {
        found.attr if isinstance(found, ast.Attribute) else found.id
        for decorator in node.decorator_list
        for found in ast.walk(decorator)
        if isinstance(found, ast.Attribute | ast.Name)
    }
    return not node.name.startswith("_") and not named & _SPEAK_FOR_THEMSELVES


def arguments(node: Function) -> dict[str, str]:
    """Return the annotation of each argument but the object itself."""
    listed = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    listed += [each for each in (node.args.vararg, node.args.kwarg) if each]
    return {
        each.arg: ast.unparse(each.annotation) if each.annotation else ""
        for each in listed
        if each.arg not in {"self", "cls"}
    }


def own_nodes(node: ast.AST) -> Iterator[ast.AST]:
    """Give what stands in a function's body, but not in functions within it."""
    for child in ast.iter_child_nodes(node):
        if not isinstance(child, Function | ast.Lambda | ast.ClassDef):
            yield child
            yield from own_nodes(child)


def raised(node: Function) -> set[str]:
    """Return the errors of ours that a function raises itself."""
    calls = [each.exc for each in own_nodes(node) if isinstance(each, ast.Raise)]
    named = [each.func if isinstance(each, ast.Call) else each for each in calls]
    names = {each.id for each in named if isinstance(each, ast.Name)}
    return {name for name in names if isinstance(getattr(errors, name, None), type)}


def lineage(name: str) -> set[str]:
    """Return an error's name and those of its branch, but not the root's."""
    branch = getattr(errors, name).__mro__
    return {each.__name__ for each in branch[: branch.index(WorkbookError)]}


def is_of_floats(annotation: str) -> bool:
    """Return whether a value is a float or holds floats; a function holds none."""
    return bool(re.search(r"\bfloat", annotation)) and "Callable" not in annotation


def faults(documented: Documented) -> Iterator[str]:
    """Give what the docstring of a function leaves out."""
    described = documented.entries("Parameters")
    for name, annotation in arguments(documented.node).items():
        # The first line holds the type, whose brackets are no unit.
        text = described.get(name, "").partition("\n")[2].strip()
        if not text:
            yield f"the argument {name} is not described"
        elif is_of_floats(annotation) and not _UNIT.search(text):
            yield f"the float {name} has no unit in brackets"
        elif "DataFrame" in annotation and "column" not in text.lower():
            yield f"the frame {name} does not say its columns"
    yield from faults_of_result(documented)
    for name in sorted(raised(documented.node)):
        if not lineage(name) & set(documented.entries("Raises")):
            yield f"{name} is raised and not told"


def faults_of_result(documented: Documented) -> Iterator[str]:
    """Give what the docstring of a function leaves out about its result."""
    returns = documented.node.returns
    annotation = ast.unparse(returns) if returns else ""
    told = documented.sections.get("Returns") or documented.sections.get("Yields", "")
    told = told.partition("\n")[2].strip()
    if annotation in {"None", "NoReturn", "Never"}:
        return
    if not told:
        yield "there is no Returns"
    elif is_of_floats(annotation) and not _UNIT.search(told):
        yield "the float that is returned has no unit in brackets"
    elif "DataFrame" in annotation and "column" not in told.lower():
        yield "the frame that is returned does not say its columns"


every_module = pytest.mark.parametrize(
    "path", MODULES, ids=lambda path: str(path.relative_to(ROOT))
)


@every_module
def test_public_functions_are_documented_in_full(path: Path) -> None:
    found = [
        f"{documented.name}: {fault}"
        for documented in functions(path.read_text(encoding="utf-8"))
        for fault in faults(documented)
    ]
    assert found == []


@every_module
def test_examples_are_true(path: Path) -> None:
    dotted = ".".join(path.relative_to(ROOT.parent).with_suffix("").parts)
    module = importlib.import_module(dotted.removesuffix(".__init__"))
    assert doctest.testmod(module, optionflags=doctest.ELLIPSIS).failed == 0


TEMPLATE = '''
def weigh({arguments}) -> {returns}:
    """
    Return a mass.

    {docstring}
    """
    {body}
'''
VOLUME = "Parameters\n----------\nvolume_ml : float\n    Volume{}.\n\n"
MASS = "Returns\n-------\nfloat\n    Mass [g].\n\n"
TOLD = "Raises\n------\nTextError\n    If it is blank.\n"


def faults_in(
    docstring: str, *, arguments: str = "", returns: str = "None", body: str = "return"
) -> list[str]:
    """Return the faults of a function that is put together for a test."""
    indented = textwrap.indent(docstring, "    ").strip()
    source = TEMPLATE.format(
        arguments=arguments, returns=returns, docstring=indented, body=body
    )
    (documented,) = functions(source)
    return list(faults(documented))


@pytest.mark.parametrize(
    ("docstring", "said"),
    [
        ("", ["the argument volume_ml is not described"]),
        (VOLUME.format(""), ["the float volume_ml has no unit in brackets"]),
        (VOLUME.format(" [mL]"), []),
    ],
)
def test_an_argument_without_words_or_unit_is_found(
    docstring: str, said: list[str]
) -> None:
    assert faults_in(docstring, arguments="volume_ml: float") == said


@pytest.mark.parametrize(
    ("docstring", "said"),
    [
        ("", ["there is no Returns"]),
        (
            MASS.replace(" [g]", ""),
            ["the float that is returned has no unit in brackets"],
        ),
        (MASS, []),
    ],
)
def test_a_result_without_words_or_unit_is_found(
    docstring: str, said: list[str]
) -> None:
    assert faults_in(docstring, returns="float") == said


@pytest.mark.parametrize(
    ("docstring", "said"),
    [("", ["BlankError is raised and not told"]), (TOLD, [])],
)
def test_an_error_that_is_not_told_is_found(docstring: str, said: list[str]) -> None:
    assert faults_in(docstring, body="raise BlankError(text)") == said


@pytest.mark.parametrize(
    ("annotation", "holds"),
    [
        ("float", True),
        ("float | None", True),
        ("Mapping[str, float]", True),
        ("NDArray[np.float64]", True),
        ("Callable[[float], float]", False),
        ("Decimal", False),
    ],
)
def test_floats_are_told_from_functions_and_decimals(
    annotation: str, *, holds: bool
) -> None:
    assert is_of_floats(annotation) is holds


def test_errors_of_others_need_not_be_told() -> None:
    assert faults_in("", body="raise KeyError(1)") == []


def test_a_frame_says_its_columns() -> None:
    said = ["the frame that is returned does not say its columns"]
    told = "Returns\n-------\nDataFrame\n    {}\n"
    assert faults_in(told.format("Marks."), returns="pd.DataFrame") == said
    assert faults_in(told.format("Columns: a, b."), returns="pd.DataFrame") == []


def test_private_and_inherited_functions_are_left_out() -> None:
    source = (
        "def _f(x): ...\n"
        "class A:\n"
        "    @override\n    def g(self, x): ...\n"
        "    @property\n    def h(self): ...\n"
        "    def i(self): ...\n"
    )
    assert [documented.name for documented in functions(source)] == ["A.i"]
