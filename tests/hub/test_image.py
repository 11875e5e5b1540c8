"""The wheel of the student image is opened, and nothing of the key side is in it."""

from __future__ import annotations

import ast
import json
import shutil
import subprocess
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING
from zipfile import ZipFile

import pytest

from tests.support.hub import ADA, LAB
from tests.support.studentside import PROJECT, ROOT, STUDENT_SIDE

if TYPE_CHECKING:
    from tests.hub.conftest import Image

pytestmark = pytest.mark.service

EXTENSION = "lab_workbook_student-0.1.0.data/data/share/jupyter/labextensions/"

#: What a student never runs.
KEY_SIDE = sorted(
    path.stem
    for path in (ROOT / "workbook").iterdir()
    if path.stem
    not in {*STUDENT_SIDE, "__init__", "__pycache__", "labextension", "cli"}
)

#: Opens a part, checks one answer where there is a card, and prints what is seen.
OPEN = """\
import json, sys
from workbook import open_sheet
try:
    card = open_sheet(sys.argv[1], sys.argv[2]).card("lye_needed_volume")
    card.pad.entry.box.set_state({"value": "3.21 mL"})
    card.check()
    seen = [card.says.value]
except Exception as error:
    seen = error._render_traceback_()
print(json.dumps(seen))
"""


def run(image: Image, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run the image's interpreter away from the repository."""
    command = [str(image.python), "-I", *arguments]
    return subprocess.run(command, cwd="/", capture_output=True, text=True, check=False)


def look(image: Image, part: str, folder: Path) -> list[str]:
    """Return the lines that a student sees on opening a part of a folder."""
    done = run(image, "-c", OPEN, part, str(folder))
    assert done.returncode == 0, done.stderr
    return list(json.loads(done.stdout))


def read_wheel(wheel: Path) -> dict[str, bytes]:
    """Return the wheel's files, but for what describes it."""
    with ZipFile(wheel) as opened:
        names = [name for name in opened.namelist() if ".dist-info/" not in name]
        return {name: opened.read(name) for name in names}


def read_imports(source: bytes) -> set[str]:
    """Return the dotted names that a module imports, at any depth."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.ImportFrom):
            found.add(str(node.module))
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found


def test_its_files_are_those_of_the_student_side_and_no_others(wheel: Path) -> None:
    places = [Path(name) for name in read_wheel(wheel)]
    ours = {path for path in places if path.parts[0] == "workbook"}
    assert {path.with_suffix("").parts[1] for path in ours} == {
        *STUDENT_SIDE,
        "__init__",
        "cli",
    }
    assert {path.suffix for path in ours} == {".py", ".js", ".css", ".csv"}
    others = {str(path) for path in places if path not in ours}
    assert others == {
        f"{EXTENSION}lab-workbook/package.json",
        f"{EXTENSION}lab-workbook/static/opening.js",
    }


def test_each_file_is_the_one_of_the_whole_package(wheel: Path) -> None:
    files = {n: c for n, c in read_wheel(wheel).items() if n.startswith("workbook/")}
    own = files.pop("workbook/cli.py")
    assert own == (ROOT / "binder" / "student" / "command" / "cli.py").read_bytes()
    for name, content in files.items():
        assert content == (ROOT / name).read_bytes(), name


def test_it_says_nothing_that_a_lab_file_or_a_slip_says(wheel: Path) -> None:
    text = b"\n".join(read_wheel(wheel).values()).decode("utf-8")
    said = (ROOT / "workbook/graph/slip_rule/sentences.toml").read_text("utf-8")
    hidden = [s for s in tomllib.loads(said).values() if isinstance(s, str)]
    for lab in (ROOT / "exercises").glob("*/lab.toml"):
        tables = tomllib.loads(lab.read_text("utf-8"))
        hidden += [each["is"] for each in tables["quantities"].values()]
    assert len(hidden) > 50
    assert [each for each in hidden if len(each) > 5 and each in text] == []


def test_it_requires_the_same_releases_as_the_whole_package() -> None:
    whole = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert PROJECT["version"] == whole["version"]
    assert set(PROJECT["dependencies"]) <= set(whole["dependencies"])


def test_each_of_its_modules_can_be_imported(image: Image) -> None:
    names = [n for n in read_wheel(image.wheel) if n.endswith(".py")]
    modules = [n.removesuffix(".py").replace("/", ".") for n in names]
    code = "\n".join(f"import {m.removesuffix('.__init__')}" for m in modules)
    done = run(image, "-c", code)
    assert done.returncode == 0, done.stderr
    assert len(modules) > 80


def test_no_import_in_it_leads_to_a_missing_part(image: Image) -> None:
    sources = [c for n, c in read_wheel(image.wheel).items() if n.endswith(".py")]
    wanted = sorted(set().union(*map(read_imports, sources)))
    code = (
        "import importlib.util, json, sys\n"
        "print([n for n in sys.argv[1:] if importlib.util.find_spec(n) is None])"
    )
    assert run(image, "-c", code, *wanted).stdout.strip() == "[]"
    assert "ipywidgets" in wanted


@pytest.mark.parametrize("part", KEY_SIDE)
def test_no_part_of_the_key_side_can_be_imported(image: Image, part: str) -> None:
    done = run(image, "-c", f"import workbook.{part}")
    assert f"No module named 'workbook.{part}'" in done.stderr


@pytest.mark.parametrize(
    "library", ["numpy", "pandas", "sympy", "pydantic", "matplotlib", "click"]
)
def test_nothing_heavy_comes_along(image: Image, library: str) -> None:
    assert run(image, "-c", f"import {library}").returncode == 1


def test_the_command_says_where_the_real_one_is(image: Image) -> None:
    command = [str(image.python.with_name("workbook")), "mark", "course.toml"]
    done = subprocess.run(command, env={}, capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("This is the student's side of the lab workbook")
    assert done.stderr.count("\n") == 1


def test_without_a_service_there_is_no_practice_and_one_sentence(
    image: Image, tmp_path: Path
) -> None:
    (line,) = look(image, "postlab", tmp_path)
    assert "no checker is named here" in line
    assert line.endswith("as it was issued.")


def test_without_a_service_an_issued_sheet_opens_and_keeps_what_is_answered(
    image: Image, issued: Path, tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(issued / ADA / LAB, tmp_path / LAB))
    (says,) = look(image, "prelab", folder)
    assert "no checker is named here" in says
    assert "Your answer is kept" in says
    (record,) = folder.glob("*-prelab.attempts.jsonl")
    assert "3.21 mL" in record.read_text("utf-8")
