"""When the labs of a course open and are due, for everybody and for some."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Annotated, TypeAlias
from zoneinfo import ZoneInfo

from pydantic import AfterValidator, BeforeValidator

from workbook.errors import nearest
from workbook.labfile.field import Text
from workbook.labfile.table import Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from workbook.labfile.finding import Finding


def _be_a_moment(value: object) -> object:
    if not isinstance(value, datetime):
        msg = "write a day with its time, without quotes: 2026-10-12T17:00:00"
        raise ValueError(msg)  # noqa: TRY004 - pydantic makes a finding of this one
    return value


def _be_a_zone(name: str) -> str:
    try:
        ZoneInfo(name)
    except (ValueError, OSError, KeyError):
        msg = (
            f"{name!r} is no time zone of the IANA database; write one like "
            f'"Europe/London" or "UTC"'
        )
        raise ValueError(msg) from None
    return name


#: A day with its time, as TOML writes it.
Moment: TypeAlias = Annotated[datetime, BeforeValidator(_be_a_moment)]
#: The name of a time zone.
ZoneName: TypeAlias = Annotated[Text, AfterValidator(_be_a_zone)]


class DatesTable(Table):
    """``[dates.LAB]``: when a lab opens, is due, and is handed back."""

    open: Moment | None = None
    due: Moment | None = None
    #: Nothing that comes later earns anything: the marked work is handed back.
    closed: Moment | None = None


#: Of a lab of which nothing is said.
_NO_DATES = DatesTable()


class ExtensionTable(Table):
    """``[[extensions]]``: more time for one student and one lab."""

    student: Text
    lab: Text
    due: Moment
    #: Why, for whoever has to defend it.
    reason: Text


@dataclass(frozen=True, slots=True)
class Calendar:
    """The dates of a course, each with its time zone."""

    zone: ZoneInfo
    dates: Mapping[str, DatesTable]
    extensions: Mapping[tuple[str, str], ExtensionTable]
    #: The labs in the order of the course.
    labs: Sequence[str]

    def due(self, lab: str, student: str = "") -> datetime | None:
        """
        Return when a lab is due.

        Parameters
        ----------
        lab : str
            The lab's name.
        student : str
            Who may have more time; empty for everybody else.

        Returns
        -------
        datetime or None
            With its time zone; None where nothing is said.
        """
        more = self.extensions.get((student, lab))
        usual = self.dates.get(lab, _NO_DATES).due
        due = usual if more is None else more.due
        return place(due, self.zone) if due is not None else None

    def extend(self, given: Iterable[ExtensionTable]) -> Calendar:
        """
        Return the calendar with more extensions.

        Parameters
        ----------
        given : iterable of ExtensionTable
            In the order of giving: of several for one student and lab the last counts.
            One that ends before the lab is due for everybody is left out.

        Returns
        -------
        Calendar
            This one stays as it is.
        """
        extensions = dict(self.extensions)
        for each in given:
            usual = self.due(each.lab)
            if usual is not None and place(each.due, self.zone) > usual:
                extensions[each.student, each.lab] = each
        return replace(self, extensions=extensions)

    def opens(self, lab: str) -> datetime | None:
        """
        Return when a lab opens.

        Parameters
        ----------
        lab : str
            The lab's name.

        Returns
        -------
        datetime or None
            With its time zone; None where nothing is said.
        """
        opens = self.dates.get(lab, _NO_DATES).open
        return place(opens, self.zone) if opens is not None else None

    def closed(self, lab: str) -> datetime | None:
        """
        Return when a lab is handed back.

        Parameters
        ----------
        lab : str
            The lab's name.

        Returns
        -------
        datetime or None
            With its time zone; None where nothing is said.
        """
        closed = self.dates.get(lab, _NO_DATES).closed
        return place(closed, self.zone) if closed is not None else None

    def next_due(self, lab: str) -> datetime | None:
        """
        Return when the lab after another is due.

        Parameters
        ----------
        lab : str
            The earlier lab's name.

        Returns
        -------
        datetime or None
            None after the last lab, and where nothing is said.
        """
        later = self.labs[self.labs.index(lab) + 1 :]
        return self.due(later[0]) if later else None


def place(moment: datetime, zone: ZoneInfo) -> datetime:
    """
    Return a moment with its time zone.

    Parameters
    ----------
    moment : datetime
        As written; one that names its own offset keeps it.
    zone : ZoneInfo
        Where it was written.

    Returns
    -------
    datetime
        With a time zone.
    """
    return moment if moment.tzinfo is not None else moment.replace(tzinfo=zone)


def find_date_faults(
    calendar: Calendar, extensions: Sequence[ExtensionTable]
) -> Iterator[Finding]:
    """
    Find dates that can't be so.

    Parameters
    ----------
    calendar : Calendar
        Of the course.
    extensions : sequence of ExtensionTable
        As they stand in the file.

    Yields
    ------
    Finding
        The place of each in the course file, and a sentence.
    """
    for lab, dates in calendar.dates.items():
        at = ("dates", lab)
        if lab not in calendar.labs:
            hint = nearest(lab, calendar.labs)
            yield at, f"{lab!r} is no lab of this course.{hint}"
        written = {key: getattr(dates, key) for key in ("open", "due", "closed")}
        placed = {k: place(m, calendar.zone) for k, m in written.items() if m}
        for key, moment in placed.items():
            if wrong := explain_clock(moment):
                yield (*at, key), wrong
        for first, then in (("open", "due"), ("due", "closed"), ("open", "closed")):
            if {first, then} <= placed.keys() and placed[first] >= placed[then]:
                yield (*at, then), f"{lab!r} is {then} no later than {first}."
    yield from _find_extension_faults(calendar, extensions)


def _find_extension_faults(
    calendar: Calendar, extensions: Sequence[ExtensionTable]
) -> Iterator[Finding]:
    seen: set[tuple[str, str]] = set()
    for index, each in enumerate(extensions):
        at = ("extensions", index)
        usual = calendar.due(each.lab)
        if wrong := explain_clock(place(each.due, calendar.zone)):
            yield (*at, "due"), wrong
        if each.lab not in calendar.labs:
            hint = nearest(each.lab, calendar.labs)
            yield (*at, "lab"), f"{each.lab!r} is no lab of this course.{hint}"
        elif usual is None:
            yield (*at, "lab"), f"{each.lab!r} has no due time that could be extended."
        elif place(each.due, calendar.zone) <= usual:
            yield (*at, "due"), f"the extension ends no later than {usual.isoformat()}."
        if (each.student, each.lab) in seen:
            who = f"{each.student!r} has an extension for {each.lab!r}"
            yield at, f"{who} already; keep one."
        seen.add((each.student, each.lab))


def explain_clock(moment: datetime) -> str:
    """
    Say why a moment is none, or two: clocks are put on and back once a year.

    Parameters
    ----------
    moment : datetime
        With its time zone.

    Returns
    -------
    str
        A sentence; empty where it is one moment.
    """
    written = moment.replace(tzinfo=None)
    zone = moment.tzinfo
    if moment.astimezone(UTC).astimezone(zone).replace(tzinfo=None) != written:
        return f"{written.isoformat(' ')} is left out where clocks are put on."
    if moment.utcoffset() != moment.replace(fold=1).utcoffset():
        return (
            f"{written.isoformat(' ')} comes twice where clocks are put back; write "
            f"it with its offset, like {moment.isoformat()}."
        )
    return ""
