"""
Every verdict on a simulated class, written down, to compare two versions of the judge.

Run as ``python -m tests.benchmarks.record_verdicts FILE [SHEETS [SEED]]`` before and
after a change that must change no verdict, and compare the two files byte by byte.
Each sheet is judged whole, then step by step as it is filled in, with answers that are
right, slipped, mistyped, guessed, of another kind, or none.
"""

from __future__ import annotations

import random
import sys
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from workbook.draw.key import CourseKey
from workbook.judge.judge import SheetJudge, judge, judge_sheet
from workbook.labfile.course import Conventions
from workbook.labfile.reader import read_lab
from workbook.rehearsal.pile import answer_somehow
from workbook.rehearsal.typist import mistype
from workbook.solver.bench import prepare
from workbook.wire.answer import Answer, Built, Chosen, Derived, Noted, Typed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.judge.case import Case
    from workbook.wire.verdict import Verdict

EXERCISES = Path(__file__).parents[2] / "exercises"

#: Sheets of each lab where none are asked for [-].
SHEETS = 40

#: How often an answer is spoiled [-].
SPOILED = 0.3


def spoil(answer: Answer, chance: random.Random) -> Answer:
    """Return an answer with something wrong in it that no slip of a rule is."""
    if not isinstance(answer, Typed | Noted | Built | Derived):
        return answer
    text = answer.text
    texts = [
        mistype(text, chance),
        f"{chance.uniform(0.1, 90):.3g}",
        "",
        "1 2",
        "4 bar",
    ]
    changed = msgspec.structs.replace(answer, text=chance.choice([*texts, text]))
    if isinstance(changed, Derived):
        lines = changed.lines
        few = (lines[:-1], (*lines, "x = 1"), (*lines[:1], "y =", *lines[1:]), lines)
        return msgspec.structs.replace(changed, lines=chance.choice(few))
    if isinstance(changed, Built):
        factors = list(changed.factors)
        chance.shuffle(factors)
        return msgspec.structs.replace(changed, factors=tuple(factors[:3]))
    return chance.choice((changed, changed, changed, Chosen(("oil",))))


def answer_wildly(case: Case, chance: random.Random) -> dict[str, Answer]:
    """Return the answers of one student, many of them spoiled."""
    return {
        step: spoil(answer, chance) if chance.random() < SPOILED else answer
        for step, answer in answer_somehow(case, chance).items()
    }


def judge_growing(case: Case, answers: dict[str, Answer]) -> Iterator[Verdict]:
    """Yield what is said while a sheet is filled in, and of each step given anew."""
    given: dict[str, Answer] = {}
    for step, answer in answers.items():
        given[step] = answer
        yield judge(case, step, given)
    seen = SheetJudge(case, given)
    asks = [ask for ask in case.graph.lab.public.asks if ask.of and ask.id in given]
    for ask, other in zip(asks, reversed(asks), strict=True):
        yield seen.retry(ask, given[other.id])


def list_lines(folder: Path, sheets: int, seed: int) -> Iterator[bytes]:
    """Yield a line of JSON for each sheet of a lab."""
    bench = prepare(read_lab(folder), Conventions())
    cases = bench.draw(CourseKey(bytes(32)), [str(at) for at in range(sheets)])
    for at, case in enumerate(cases):
        chance = random.Random(f"{seed} {folder.name} {at}")  # noqa: S311 - hides nothing
        answers = answer_wildly(case, chance)
        whole, alone = judge_sheet(case, answers), list(judge_growing(case, answers))
        yield msgspec.json.encode((folder.name, at, answers, whole, alone)) + b"\n"


def main() -> None:
    """Write the file, and print how much it holds and what it comes to."""
    path, *numbers = sys.argv[1:]
    sheets, seed = (*map(int, numbers), *(SHEETS, 1)[len(numbers) :])
    count, whole = 0, sha256()
    with Path(path).open("wb") as out:
        for folder in sorted(each.parent for each in EXERCISES.glob("*/lab.toml")):
            for line in list_lines(folder, sheets, seed):
                out.write(line)
                whole.update(line)
                count += line.count(b'"sentence"')
    sys.stdout.write(f"{count:,} verdicts, seed {seed}: {whole.hexdigest()}\n")


if __name__ == "__main__":
    main()
