"""What is logged: lines of JSON, and never the sentence of an error."""

from __future__ import annotations

import json
import subprocess
import sys
from json import JSONDecodeError

import pytest

from workbook.checker.log import list_places

_PROGRAM = """
import logging
from workbook.checker.log import configure_log, tell, tell_fault
configure_log()
tell("answered", kind="OpenSheet", took_ms=3.5)
try:
    float("13.62 g")
except ValueError as error:
    tell_fault(error)
    logging.getLogger("library").exception("broken")
logging.getLogger("library").warning("strange %s", "thing")
logging.getLogger("library").info("nothing")
"""


def log() -> list[dict[str, object]]:
    """Return what a process logs that goes wrong."""
    command = [sys.executable, "-c", _PROGRAM]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert "13.62" not in done.stdout + done.stderr
    return [json.loads(line) for line in done.stderr.splitlines()]


def test_each_line_is_an_object_with_its_time_and_no_sentence_of_an_error() -> None:
    answered, fault, broken, strange = log()
    assert answered["kind"] == "OpenSheet"
    assert (fault["event"], fault["error"]) == ("fault", "ValueError")
    assert fault["places"] == ["<string>:7 <module>"]
    assert (broken["event"], broken["error"]) == ("broken", "ValueError")
    assert strange["event"] == "strange thing"
    # RFC 3339, in UTC.
    assert all(str(each["at"]).endswith("Z") for each in (answered, fault, strange))


def test_the_places_of_an_error_are_told_without_folders() -> None:
    with pytest.raises(JSONDecodeError) as caught:
        json.loads("x")
    first, *_, last = list_places(caught.value)
    assert first.startswith("test_log.py:")
    assert last.startswith("decoder.py:")
