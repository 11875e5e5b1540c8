"""Lines of algebra: in any sane order and notation, and the first that stops."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

import pytest

from tests.support.student import make_case
from workbook.judge.algebra import LINE_LIMIT
from workbook.judge.judge import judge
from workbook.wire.answer import Derived
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.graph.compile import CompiledGraph
    from workbook.judge.case import Case
    from workbook.wire.verdict import Verdict

# By hand, weights of CIAAW 2021: C3H5 = 3 × 12.011 + 5 × 1.008 = 41.073;
# (885.45 - 41.07)/3 = 281.46; + 22.99 = 304.45.
RIGHT = "304.45 g/mol"

#: So long may a judge take over a line that nobody would write in earnest [s].
PATIENCE_S = 0.5


def verdict(case: Case, *lines: str, result: str = RIGHT) -> Verdict:
    return judge(case, "soap.molar_mass", {"soap.molar_mass": Derived(lines, result)})


@pytest.mark.parametrize(
    "lines",
    [
        ("oil = C3H5 + 3x", "x = (oil - C3H5)/3", "soap = x + Na"),
        # Any order, sides swapped, everything in one line.
        ("soap = x + Na", "3x = oil - C3H5"),
        ("(oil - C3H5)/3 + Na = soap",),
        ("3 soap = oil - M(C3H5) + 3 M(Na)",),
        # Other signs, letters or numbers, or both.
        ("x = (oil − C3H5) ÷ 3",),
        ("3·x = 885.45 - 41.07", "x = 844.38/3", "281.46 = x", "soap = 281.46 + 22.99"),
        ("x = (885.45 - 3*12.01 - 5*1.01)/3", "soap = x + 22.99"),
        ("x = (885 - 41)/3", "x = 281", "soap = 281 + 23", "soap = 304"),
        ("x = (oil - 3 C - 5 H)/3", "soap = x + Na"),
        # By the mass balance of the whole equation, glycerol being C3H8O3.
        ("3 soap = oil + 3 NaOH - C3H8O3",),
        ("soap = (885.45 + 3*40.00 - 92.09)/3",),
    ],
)
def test_lines_that_follow_hold(case: Case, lines: tuple[str, ...]) -> None:
    found = verdict(case, *lines)
    assert found.outcome is Outcome.RIGHT, found.sentence
    assert found.method_holds


@pytest.mark.parametrize(
    ("lines", "at"),
    [
        # Slips of algebra that teaching names: only one term divided; a sign; the
        # sodium forgotten; the fatty acid for the salt; a hydrogen lost.
        (("oil = C3H5 + 3x", "x = oil/3 - C3H5"), 1),
        (("x = (oil + C3H5)/3",), 0),
        (("x = (oil - C3H5)/3", "soap = x"), 1),
        (("x = (oil - C3H5)/3", "soap = x + H"), 1),
        (("oil = C3H4 + 3x",), 0),
        (("soap = x + NaOH",), 0),
        (("oil = C3H5 + x",), 0),
        # The same in numbers.
        (("x = 885.45/3 - 41.07",), 0),
        (("x = (885.45 - 40.06)/3",), 0),
        (("x = (885.45 - 41.07)/3", "soap = 281.46 + 39.10"), 1),
        (("x = 281.46", "soap = 303.44"), 1),
    ],
)
def test_the_first_line_that_stops_is_found(
    case: Case, lines: tuple[str, ...], at: int
) -> None:
    found = verdict(case, *lines)
    assert found.outcome is Outcome.WRONG
    assert found.at == at
    assert f"Line {at + 1} does not follow" in found.sentence
    assert found.method_holds is False


@pytest.mark.parametrize(
    "lines",
    [
        # 885.45 - 42.08 = 843.37; / 3 = 281.12; + 22.99 = 304.11.
        ("x = (885.45 - 42.08)/3", "x = 281.12", "soap = x + Na", "soap = 304.11"),
        ("x = (885.45 - 42.08)/3", "soap = 281.12 + 22.99"),
        # 885.45/3 - 41.07 = 254.08; + 22.99 = 277.07.
        ("x = oil/3 - C3H5", "soap = 277.07"),
        ("x = oil/3 - C3H5", "soap = oil/3 - C3H5 + Na"),
        # Nothing was said of x, so it may be true again.
        ("soap = x + NaOH", "x = 281.46"),
    ],
)
def test_later_lines_are_judged_from_the_line_that_stopped(
    case: Case, lines: tuple[str, ...]
) -> None:
    found = verdict(case, *lines)
    assert found.at == 0
    assert "What comes after it follows from it." in found.sentence


def test_a_second_line_that_stops_is_named_too(case: Case) -> None:
    found = verdict(case, "x = oil/3 - C3H5", "x = 254.08", "soap = 254.08 + 39.10")
    assert found.at == 0
    assert "Nor does line 3 follow from there." in found.sentence


def test_a_student_who_rounds_goes_on_from_the_rounded_value(case: Case) -> None:
    """844.38/3 is 281 to three figures, and 281 + 22.99 is 303.99."""
    found = verdict(case, "x = 844.38/3", "x = 281", "soap = 303.99")
    assert found.method_holds


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("x + 3", "is not an equation"),
        ("y = 3", "no letter of this pad"),
        ("oli = 3x", "Did you mean 'oil'?"),
        ("x = (oil", "can't be read"),
        ("x = 1/0", "divided by zero"),
        ("x = 12,5", "Use a point: 12.5"),
    ],
)
def test_a_line_that_can_not_be_read_costs_no_try(
    case: Case, line: str, said: str
) -> None:
    found = verdict(case, "oil = C3H5 + 3x", line)
    assert found.outcome is Outcome.UNREAD
    assert found.at == 1
    assert found.sentence.startswith("Line 2 ")
    assert said in found.sentence


@pytest.mark.parametrize(
    "line",
    [
        "x" * 5000,
        "(" * 90 + "x" + ")" * 90 + " = 1",
        "x = 9^9^9^9",
        "x = 1e400",
        "x = 10^999999999",
        "soap = (x + oil)^12 (x - oil)^12",
        "1/(x+1) + 1/(x+2) + 1/(x+3) + 1/(x+4) = 1/(oil+1) + 1/(oil+2)",
        "__import__('os').abort()",
        "x = lambda: 3",
        "x = 3 if 4 else 5",
        "{line} = {reason}",
        "х = 281.46",  # noqa: RUF001 - a Cyrillic letter
        "x = ∞",
        "x = C" + "9" * 60,
        "\x00",
        "\N{RIGHT-TO-LEFT OVERRIDE}x = 3",
        "x == 281.46",
        "=",
    ],
)
def test_a_hostile_line_is_refused_at_once(case: Case, line: str) -> None:
    start = time.perf_counter()
    found = verdict(case, line)
    assert found.outcome is Outcome.UNREAD
    assert time.perf_counter() - start < PATIENCE_S


@pytest.mark.parametrize(
    "line",
    [
        "x = " + "9" * 30 + "^12",
        "(C + H + O)(x + oil + soap) = (Na + H)(x - 12)",
        "x = 1/(oil - 3x - C3H5)",
        "x = " + "-(" * 11 + "x" + ")" * 11,
        "x = 0",
    ],
)
def test_a_strange_line_is_judged_in_time(case: Case, line: str) -> None:
    start = time.perf_counter()
    assert verdict(case, *[line] * LINE_LIMIT).outcome is Outcome.WRONG
    assert time.perf_counter() - start < LINE_LIMIT * PATIENCE_S


def test_too_many_lines_are_not_read(case: Case) -> None:
    found = verdict(case, *["x = 281.46"] * (LINE_LIMIT + 1))
    assert found.outcome is Outcome.UNREAD
    assert f"more than {LINE_LIMIT} lines" in found.sentence


@pytest.mark.parametrize(
    "lines",
    [(), ("x = x",), ("soap = 304.45",), ("x - x = 0", "0 = 0"), ("2x/2 = x",)],
)
def test_lines_that_work_nothing_out_are_no_working(
    case: Case, lines: tuple[str, ...]
) -> None:
    found = verdict(case, *lines)
    assert found.outcome is Outcome.WRONG
    assert found.sentence.startswith("Show the working")


def test_right_lines_do_not_save_a_wrong_result(case: Case) -> None:
    found = verdict(case, "soap = (oil - C3H5)/3 + Na", result="303.44 g/mol")
    assert found.method_holds
    assert not found.value_holds


def test_the_letters_do_not_depend_on_the_draw(compiled: CompiledGraph) -> None:
    other = make_case(compiled, oil_volume=14.0)
    assert verdict(other, "soap = (oil - C3H5)/3 + Na").outcome is Outcome.RIGHT
