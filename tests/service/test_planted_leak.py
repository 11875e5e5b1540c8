"""The searches of the border tests find what is planted, wherever it hides."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from tests.support.notebook_run import read_lines, tap_command
from tests.support.plant import blab_command, list_leak
from tests.support.search import Searcher, find_groups, find_in_talk, find_shared
from tests.support.soap import LAB
from workbook.client.pipe import PipeChecker
from workbook.solver.source import KEY_FILE
from workbook.wire.answer import Typed
from workbook.wire.message import JudgeAttempt

if TYPE_CHECKING:
    from pathlib import Path

    from tests.support.secret import Secrets
    from workbook.wire.sheet import SheetId

pytestmark = pytest.mark.service

#: How long a process may take to start on a busy machine [s].
AMPLE_S = 60.0

#: Where a value can stand in a process, in Python; ``{}`` is the value.
HIDING_PLACES = (
    "a = (lambda secret: lambda: secret)({})",
    "b = {{{}: 1}}",
    "import collections\nclass C: pass\nC.c = collections.deque([C(), {}])",
    "import msgspec\nd = msgspec.defstruct('D', ['d'], frozen=True, gc=False)({})",
    "e = b'Expected: {}.'",
    "import io\nf = io.StringIO('{}')",
    "def generate(secret): yield; secret\ng = generate({})\nnext(g)",
    (
        "import threading\ndef wait(secret): threading.Event().wait(60)\n"
        "threading.Thread(target=wait, args=({},), daemon=True).start()"
    ),
    "import ipywidgets\nh = ipywidgets.HTML('<b>{}</b>')",
    "import decimal\ni = decimal.Decimal('{}')",
    "import functools\n@functools.cache\ndef keep(secret): return 1\nkeep({})",
)


def test_a_value_is_found_wherever_it_hides(
    secrets: Secrets, folder: Path, tmp_path: Path
) -> None:
    values = [each for each in secrets.values if not each.is_short]
    planted = list(zip(HIDING_PLACES, values, strict=False))
    leak = "\n".join(place.format(value.value) for place, value in planted)
    listing = list_leak(leak, folder / "sheet.json", tmp_path)
    found = {
        each.partition(": ")[0] for each in Searcher(secrets).find_in_listing(listing)
    }
    assert {value.name for _, value in planted} <= found
    assert len(planted) == len(HIDING_PLACES)


def test_every_phrase_hidden_name_and_right_option_is_found(
    secrets: Secrets, folder: Path, tmp_path: Path
) -> None:
    rights = {each.step: sorted(each.right) for each in secrets.choices}
    kept = [*secrets.phrases.values(), *secrets.hidden, rights]
    listing = list_leak(f"kept = {kept!r}", folder / "sheet.json", tmp_path)
    found = {e.partition(": ")[0] for e in Searcher(secrets).find_in_listing(listing)}
    assert {*secrets.phrases, *secrets.hidden, *rights} <= found


def test_a_process_that_loads_the_key_and_the_lab_is_found(
    secrets: Secrets, course: Path, folder: Path, tmp_path: Path
) -> None:
    leak = (
        "from pathlib import Path\nfrom workbook.draw.key import read_key\n"
        "from workbook.labfile.reader import read_lab\n"
        f"place = Path({str(course.parent)!r})\n"
        f"kept = read_key(place / {KEY_FILE!r}), read_lab(place / {LAB!r})"
    )
    listing = list_leak(leak, folder / "sheet.json", tmp_path)
    found = Searcher(secrets).find_in_listing(listing)
    assert any(each.startswith("the key as bytes") for each in found)
    assert any(each.startswith(".readings.dish_and_soap.is") for each in found)
    assert {"workbook.labfile.reader", "pydantic"} <= set(listing.modules)
    assert "workbook.draw.key.CourseKey" in listing.kinds
    assert "workbook.relation.tree.Operation" in listing.kinds


@pytest.mark.parametrize("form", ["{:#.3g} g", "{:.4f} g", "{:.2e} g", "{!r} g"])
def test_a_checker_that_tells_the_right_value_is_found(
    secrets: Secrets, sheet_id: SheetId, tmp_path: Path, form: str
) -> None:
    (value,) = (each for each in secrets.values if each.name == "acid_mass")
    command = blab_command(f"Expected {form.format(value.value)}.")
    checker = PipeChecker(tmp_path, command=tap_command(tmp_path / "lines", command))
    attempt = JudgeAttempt(sheet_id, "acid_mass", Typed("7.77 g"))
    checker.ask(attempt, task="judge", limit_s=AMPLE_S)
    checker.close()
    lines = read_lines(tmp_path / "lines")
    assert any(e.startswith("acid_mass: ") for e in find_in_talk(secrets, lines))
    assert len(find_shared(secrets, lines)) >= 1


def test_what_the_student_typed_may_be_said_again(secrets: Secrets) -> None:
    (value,) = (each for each in secrets.values if each.name == "acid_mass")
    said = f"read as {value.value:#.3g} g"
    assert Searcher(secrets, f"{value.value:#.3g} g").find_in_document(said) == []
    assert Searcher(secrets, "7.77 g").find_in_document(said) != []


def test_a_sheet_that_marks_an_option_as_right_is_found(
    secrets: Secrets, folder: Path
) -> None:
    sheet = json.loads((folder / "sheet.json").read_text("utf-8"))
    (step,) = (each for each in sheet["prelab"] if each["id"] == "splash")
    step["good"] = "rinse"
    found = Searcher(secrets).find_rights(find_groups(sheet))
    assert [each.partition(":")[0] for each in found] == ["splash"]
