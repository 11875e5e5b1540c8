"""What was found, as text and as JSON."""

from __future__ import annotations

import json

from workbook.authoring.inspection import Inspection
from workbook.authoring.page import encode_inspections, print_inspection
from workbook.authoring.told import Told
from workbook.draw.review import Review

REVIEW = Review("chalk", 10, {"it is a tie.": 3}, (("mass", "ten"),), ())
CONFIRM = Told("chalk/lab.toml", 4, "density: from memory")
WRONG = Told("chalk/lab.toml", 9, "no unit.")


def test_what_to_confirm_is_counted_and_listed() -> None:
    said = print_inspection(Inspection("chalk", confirm=(CONFIRM,)))
    assert said.splitlines() == [
        "1 for a chemist to confirm before use:",
        "  chalk/lab.toml:4: density: from memory",
    ]


def test_what_becomes_of_draws_comes_first_and_notes_last() -> None:
    lines = print_inspection(
        Inspection("chalk", notes=("No RDKit.",), review=REVIEW)
    ).splitlines()
    assert lines[0] == "chalk: 10 draws, 7 fair."
    assert lines[-1] == "No RDKit."


def test_mistakes_are_not_printed_here_but_are_in_the_json() -> None:
    inspection = Inspection("chalk", (WRONG,), (CONFIRM,))
    assert "no unit" not in print_inspection(inspection)
    (lab,) = json.loads(encode_inspections([inspection]))["labs"]
    assert lab["findings"] == [
        {"file": "chalk/lab.toml", "line": 9, "says": "no unit."}
    ]
    assert lab["review"] is None


def test_the_json_holds_a_review_in_its_parts() -> None:
    whole = json.loads(encode_inspections([Inspection("chalk", review=REVIEW)]))
    assert whole["version"] == 1
    assert whole["labs"][0]["review"]["refused"] == {"it is a tie.": 3}
