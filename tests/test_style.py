"""The whole project is formatted and linted as its settings say."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.mark.parametrize(
    "tool",
    [
        ("ruff", "check"),
        ("ruff", "format", "--check"),
    ],
    ids=" ".join,
)
def test_a_tool_finds_nothing(tool: tuple[str, ...]) -> None:
    command = [sys.executable, "-m", *tool]
    done = subprocess.run(
        command, cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
