"""Figures for Prometheus, of one process and of several."""

from __future__ import annotations

import os
import subprocess
import sys
from typing import TYPE_CHECKING

from prometheus_client.parser import text_string_to_metric_families

from workbook.checker.metric import (
    FOLDER_VARIABLE,
    count_answer,
    count_open,
    print_metrics,
)

if TYPE_CHECKING:
    from pathlib import Path


def read(page: str) -> dict[tuple[str, str], float]:
    """Return what is counted, by name and kind: read by the library's own parser."""
    return {
        (sample.name, sample.labels.get("kind", "")): sample.value
        for family in text_string_to_metric_families(page)
        for sample in family.samples
    }


def test_what_was_answered_is_counted_and_timed() -> None:
    before = read(print_metrics().decode())["workbook_questions_open", ""]
    count_open(1)
    count_open(1)
    count_answer("Test", "Judged", 0.5)
    count_open(-1)
    found = read(print_metrics().decode())
    assert found["workbook_questions_total", "Test"] == 1
    assert found["workbook_question_seconds_sum", "Test"] == 0.5
    assert found["workbook_questions_open", ""] - before == 1


def test_several_processes_are_counted_together(tmp_path: Path) -> None:
    program = (
        "from workbook.checker.metric import count_answer, print_metrics\n"
        "count_answer('Test', 'Judged', 0.5)\n"
        "print(print_metrics().decode())"
    )
    several = os.environ | {FOLDER_VARIABLE: str(tmp_path)}
    pages = [
        subprocess.check_output([sys.executable, "-c", program], env=several, text=True)
        for _ in range(2)
    ]
    assert read(pages[1])["workbook_questions_total", "Test"] == 2
