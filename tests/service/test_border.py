"""
Nothing hidden crosses the border: not into a kernel, not into a file, not into a word.

Two issued notebooks are run in real kernels with the solver as their child process.
In this form of the checker the lab files are on the same disk, and the environment
says where the course is: that the one who can read the disk does not read them is
not shown here, and is the matter of a checker that runs elsewhere.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.support.mistake import answer_wrongly
from tests.support.notebook_run import Run, run_notebook
from tests.support.search import Searcher, find_groups, find_in_talk
from tests.support.soap import LAB, answer_rightly
from tests.support.studentside import STUDENT_SIDE

if TYPE_CHECKING:
    from tests.support.secret import Secrets
    from workbook.judge.case import Case
    from workbook.wire.answer import Answer

pytestmark = pytest.mark.service

#: What a kernel may not pay for.
HEAVY = {"numpy", "pandas", "sympy", "pydantic", "matplotlib", "click", "jinja2"}

#: Steps that the student answers rightly after a mistake; all others stay wrong.
PUT_RIGHT = {"splash", "lye_needed", "lye_volume", "dish", "limiting", "soap_amount"}

#: IPython has a colour theme of this name, beside none of our options.
BY_CHANCE = ["brine_waste: ['neutral']"]


@pytest.fixture(scope="module", params=["prelab", "postlab"])
def run(
    request: pytest.FixtureRequest,
    course: Path,
    case: Case,
    folder: Path,
    tmp_path_factory: pytest.TempPathFactory,
) -> Run:
    """Run one notebook, and answer each step wrongly, then some of them rightly."""
    place = tmp_path_factory.mktemp(request.param)
    own = Path(shutil.copytree(folder, place / LAB))
    right = answer_rightly(case)
    tries: list[tuple[str, Answer]] = []
    for ask in getattr(case.graph.lab.public, request.param):
        tries.append((ask.id, answer_wrongly(ask.id)))
        if ask.id in PUT_RIGHT:
            tries.append((ask.id, right[ask.id]))
    return run_notebook(own / f"{request.param}.ipynb", course, place, tries)


def search(secrets: Secrets, run: Run) -> Searcher:
    """Return a searcher that leaves aside what was typed and what was put right."""
    asked = [line.message["question"] for line in run.lines if not line.is_reply]
    typed = json.dumps([q["answer"] for q in asked if q["type"] == "judge"])
    return Searcher(secrets, typed, frozenset(PUT_RIGHT))


@pytest.mark.parametrize("when", ["silent", "answered"])
def test_a_kernel_loads_the_student_side_and_nothing_heavy(run: Run, when: str) -> None:
    modules = getattr(run, when).modules
    parts = {name.split(".")[1] for name in modules if name.startswith("workbook.")}
    assert parts <= STUDENT_SIDE
    assert {"front", "client", "wire"} <= parts
    assert HEAVY.isdisjoint(modules)


@pytest.mark.parametrize("when", ["silent", "answered"])
def test_no_object_of_the_key_side_lives_in_a_kernel(run: Run, when: str) -> None:
    kinds = getattr(run, when).kinds
    ours = {name.split(".")[1] for name in kinds if name.startswith("workbook.")}
    assert "front" in ours
    assert ours <= STUDENT_SIDE


def test_no_relation_is_kept_as_a_tree_in_a_kernel(run: Run) -> None:
    trees = [n for n in run.silent.kinds if n.startswith("workbook.relation.tree.")]
    assert trees == []


def test_before_any_answer_memory_holds_nothing_hidden(
    secrets: Secrets, run: Run
) -> None:
    found = Searcher(secrets).find_in_listing(run.silent)
    assert [each for each in found if each not in BY_CHANCE] == []


def test_after_the_answers_memory_holds_only_what_was_typed(
    secrets: Secrets, run: Run
) -> None:
    found = search(secrets, run).find_in_listing(run.answered)
    assert [each for each in found if each not in BY_CHANCE] == []


@pytest.mark.parametrize("when", ["silent", "answered"])
def test_no_trait_of_a_widget_holds_anything_hidden(
    secrets: Secrets, run: Run, when: str
) -> None:
    traits = getattr(run, when).traits
    assert len(traits["state"]) > 50
    searcher = search(secrets, run)
    assert searcher.find_in_memory([json.dumps(traits)], []) == []
    assert searcher.find_rights(find_groups(traits)) == []


def test_the_environment_names_the_course_file_and_nothing_beside_it(
    secrets: Secrets, course: Path, run: Run
) -> None:
    named = [k for k, v in run.answered.environ.items() if str(course.parent) in v]
    assert named == ["WORKBOOK_COURSE"]
    environ = json.dumps(run.answered.environ)
    assert Searcher(secrets).find_in_memory([environ], []) == []
    kept = {each for each in run.answered.texts if str(course.parent) in each}
    assert kept == {str(course)}


def test_the_saved_notebook_holds_only_what_was_typed(
    secrets: Secrets, run: Run
) -> None:
    searcher = search(secrets, run)
    assert '"widgets"' in run.saved
    assert searcher.find_in_memory([run.saved], []) == []
    assert searcher.find_rights(find_groups(json.loads(run.saved))) == []


def test_what_was_issued_holds_nothing_hidden(secrets: Secrets, folder: Path) -> None:
    files = {path.name: path.read_text("utf-8") for path in folder.iterdir()}
    drawn = {name for name in files if name.startswith("scheme")}
    read = {"postlab.ipynb", "prelab.ipynb", "sheet.json"}
    assert set(files) == drawn | read
    searcher = Searcher(secrets)
    for text in files.values():
        assert searcher.find_in_document(text) == []
    for name in sorted(read):
        assert searcher.find_rights(find_groups(json.loads(files[name]))) == []


def test_no_reading_behind_the_gate_was_issued(folder: Path, case: Case) -> None:
    sheet = json.loads((folder / "sheet.json").read_text("utf-8"))
    readings = [step for step in sheet["postlab"] if step["type"] == "reading"]
    assert len(readings) == len(case.graph.lab.public.instruments)
    assert {step["seen"] + step.get("picture", "") for step in readings} == {""}
    text = json.dumps(sheet)
    for name in ("dish", "dish_and_soap"):
        assert f"{case.values[name]:.2f}" not in text


def test_records_and_hand_in_hold_only_what_was_typed(
    secrets: Secrets, run: Run
) -> None:
    searcher = search(secrets, run)
    files = [*run.folder.glob("*.jsonl"), *run.folder.glob("*.handin.json")]
    assert len(files) == 2
    for path in files:
        assert searcher.find_in_document(path.read_text("utf-8")) == []


def test_no_message_holds_what_no_attempt_has_earned(
    secrets: Secrets, run: Run
) -> None:
    assert find_in_talk(secrets, run.lines) == []
    said = [line.message["statement"] for line in run.lines if line.is_reply]
    outcomes = {each["verdict"]["outcome"] for each in said if "verdict" in each}
    assert {"right", "wrong"} <= outcomes


def test_the_solver_is_first_asked_by_the_first_answer(case: Case, run: Run) -> None:
    asked = [line.message["question"] for line in run.lines if not line.is_reply]
    # Opening the notebook for after the lab asks for its readings.
    first = next(each for each in asked if each["type"] != "pass")
    steps = {case.graph.lab.public.prelab[0].id, case.graph.lab.public.postlab[0].id}
    assert first["type"] == "judge"
    assert first["step"] in steps
    assert [each["type"] for each in asked].count("pass") <= 1


def test_a_verdict_carries_no_number_but_a_place(run: Run) -> None:
    for line in run.lines:
        verdict = line.message.get("statement", {}).get("verdict", {})
        numbers = {k for k, v in verdict.items() if type(v) in {int, float}}
        assert numbers <= {"at"}
