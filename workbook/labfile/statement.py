"""Rules on hazard statements that an author writes out: each is word for word."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from workbook.errors import MatterError
from workbook.labfile.hazard import read_statement
from workbook.labfile.kind import MatchingTable, PredictionTable
from workbook.labfile.schema import ChoiceTable
from workbook.labfile.step import placed_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbook.labfile.finding import Finding
    from workbook.labfile.schema import LabFile

_ONE = r"(?:EUH|H)[0-9]{3}[A-Za-z]{0,2}"
_CODE = re.compile(rf"{_ONE}(?:\s*\+\s*{_ONE})*")

#: Statements behind which a supplier may say which organ, route or effect.
_OPEN = frozenset(
    {"H340", "H341", "H350", "H351", "H360", "H361", "H370", "H371", "H372", "H373"}
)

#: Where the United Nations and the European Union spell one word in two ways.
_SPELLINGS = (("oxidiser", "oxidizer"), ("pressurised", "pressurized"))


def statements_are_word_for_word(file: LabFile) -> Iterator[Finding]:
    """
    Find offered hazard statements whose text is not the one of their code.

    Parameters
    ----------
    file : LabFile
        The file, its tables read.

    Returns
    -------
    iterator of Finding
        At most one for each option.
    """
    for place, step in placed_steps(file):
        if isinstance(step, ChoiceTable | MatchingTable | PredictionTable):
            for key, text in step.options.items():
                if sentence := _wrong(key, text):
                    yield (*place, "options", key), sentence


def _wrong(key: str, text: str) -> str:
    found = _CODE.match(text)
    named = _CODE.fullmatch(key) is not None
    if found is None and not named:
        return ""
    code = re.sub(r"\s", "", found[0]) if found else key
    if named and code != key:
        return f"the option {key!r} speaks of {code}; give both the same code."
    return _compare(code, text[found.end() :] if found else text)


def _compare(code: str, text: str) -> str:
    said = text.strip(" :,;\N{EN DASH}-")
    try:
        official = read_statement(code).text
    except MatterError as error:
        return str(error)
    if not said or _is_same(code, said, official):
        return ""
    return f"{code} stands for {official!r}, word for word; {said!r} stands here."


def _is_same(code: str, said: str, official: str) -> bool:
    written, wanted = _plain(said), _plain(official)
    return written == wanted or (code in _OPEN and written.startswith(f"{wanted} "))


def _plain(text: str) -> str:
    plain = " ".join(text.casefold().split()).rstrip(".")
    for british, american in _SPELLINGS:
        plain = plain.replace(british, american)
    return plain
