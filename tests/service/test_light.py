"""
A kernel stays light, whatever a student does with a page.

What a notebook as issued loads is looked at in `test_border`; here it is practice, a
worked answer, fresh values, and a report.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import msgspec
import pytest

from tests.support.lab import OLIVE_OIL
from tests.support.mistake import answer_wrongly

pytestmark = pytest.mark.service

HEAVY = {"numpy", "pandas", "matplotlib", "rdkit", "sympy"}

_PREPARE = """\
import json
import sys

import msgspec

from workbook import open_sheet
from workbook.wire.answer import Answer

shown = 0
page = open_sheet({part!r}, {folder!r})
for step, text in json.loads({answers!r}).items():
    card = page.card(step)
    card.pad.write(msgspec.json.decode(text, type=Answer))
    card.check()
"""

_PRACTISE = """\
    if card.worked.box.children:
        card.worked.show()
        shown += "Worked answer" in card.worked.lines.value
assert shown > 5, shown
page.renew()
"""

_REPORT = """\
assert "Written to" in page.report().report()
assert "Written to" in page.hand_in().hand_in()
"""


def run(code: str, folder: Path) -> list[str]:
    """Run code in an interpreter of its own, and return the parts that it loaded."""
    show = "print(json.dumps(sorted({name.split('.')[0] for name in sys.modules})))"
    command = [sys.executable, "-c", f"import json\n{code}\n{show}\n"]
    said = subprocess.check_output(command, cwd=folder, text=True)
    return list(json.loads(said.splitlines()[-1]))


def prepare(folder: Path, part: str) -> str:
    """Return code that answers every step of one part, wrongly."""
    notebook = (OLIVE_OIL / f"{part}.ipynb").read_text(encoding="utf-8")
    sources = ("".join(cell["source"]) for cell in json.loads(notebook)["cells"])
    steps = [s.split('"')[1] for s in sources if s.startswith("page.card(")]
    answers = {s: msgspec.json.encode(answer_wrongly(s)).decode() for s in steps}
    assert len(answers) > 5
    return _PREPARE.format(part=part, folder=str(folder), answers=json.dumps(answers))


@pytest.mark.parametrize("part", ["prelab", "postlab"])
def test_practice_with_worked_answers_and_new_values_loads_nothing_heavy(
    tmp_path: Path, part: str
) -> None:
    shutil.copy(OLIVE_OIL / "lab.toml", tmp_path)
    loaded = run(prepare(tmp_path, part) + _PRACTISE, tmp_path)
    assert {"workbook", "ipywidgets"} <= set(loaded)
    assert HEAVY.isdisjoint(loaded)


def test_a_report_and_a_hand_in_load_nothing_heavy(
    folder: Path, course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = Path(shutil.copytree(folder, tmp_path / "own"))
    monkeypatch.setenv("WORKBOOK_COURSE", str(course))
    loaded = run(prepare(own, "postlab") + _REPORT, own)
    assert {"workbook", "ipywidgets"} <= set(loaded)
    assert HEAVY.isdisjoint(loaded)
