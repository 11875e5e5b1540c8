"""The tables of the record, as the latest migration leaves them."""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import (
    BigInteger,
    Column,
    DateTime,
    Dialect,
    Integer,
    MetaData,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
)
from typing_extensions import override


class UtcTime(TypeDecorator[datetime]):
    """A time that comes back with its zone, from a database that keeps none too."""

    impl = DateTime(timezone=True)
    cache_ok = True

    @override
    def process_bind_param(
        self, value: datetime | None, dialect: Dialect
    ) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            msg = f"A time without its zone is not kept: {value!r}."
            raise ValueError(msg)
        return value.astimezone(UTC)

    @override
    def process_result_value(
        self, value: datetime | None, dialect: Dialect
    ) -> datetime | None:
        if value is None:
            return None
        # SQLite gives it back without the zone in which it was put.
        return value.replace(tzinfo=value.tzinfo or UTC).astimezone(UTC)


#: Counts up in the order of receiving; SQLite counts only what it calls INTEGER.
_NUMBER = BigInteger().with_variant(Integer, "sqlite")

METADATA = MetaData()


def _name_sheet() -> tuple[Column[str], Column[str], Column[int], Column[str]]:
    """Return the columns of a sheet's four names."""
    return (
        Column("course", Text, nullable=False),
        Column("lab", Text, nullable=False),
        Column("revision", Integer, nullable=False),
        Column("student", Text, nullable=False),
    )


#: Each answer that came, whatever was said of it.
ATTEMPT = Table(
    "attempt",
    METADATA,
    Column("number", _NUMBER, primary_key=True, autoincrement=True),
    *_name_sheet(),
    Column("id", Text, nullable=False),
    Column("step", Text, nullable=False),
    # The JSON of the answer: nothing looks into it here.
    Column("answer", Text, nullable=False),
    Column("received", UtcTime, nullable=False),
    # Empty until it is judged; it can be worked out again at any time.
    Column("outcome", Text, nullable=True),
    UniqueConstraint("course", "lab", "revision", "student", "id", name="attempt_once"),
    sqlite_autoincrement=True,
)

#: Each hand-in that was sealed.
HAND_IN = Table(
    "hand_in",
    METADATA,
    Column("number", _NUMBER, primary_key=True, autoincrement=True),
    *_name_sheet(),
    Column("digest", Text, nullable=False),
    Column("received", UtcTime, nullable=False),
    UniqueConstraint(
        "course", "lab", "revision", "student", "digest", name="hand_in_once"
    ),
    sqlite_autoincrement=True,
)
