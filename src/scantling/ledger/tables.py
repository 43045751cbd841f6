"""The tables of the ledger, in their newest shape; `opening` brings older ones there.

Texts are kept once each, packed, under their digest; whatever names a text names its digest.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from sqlalchemy import (
    Boolean,
    Column,
    Dialect,
    Float,
    ForeignKey,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
)
from sqlalchemy.types import TypeDecorator

_START = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


class Moment(TypeDecorator[datetime]):
    """A time with its zone, kept as whole microseconds since 1970 in UTC."""

    impl = Integer
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> int | None:  # noqa: ARG002
        return None if value is None else (value - _START) // _MICROSECOND

    def process_result_value(self, value: int | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        return None if value is None else _START + value * _MICROSECOND


METADATA = MetaData()

TEXTS = Table(
    "texts",
    METADATA,
    Column("digest", String, primary_key=True),
    Column("body", LargeBinary, nullable=False),
)

CHANGES = Table(
    "changes",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("scope", String, nullable=False, index=True),
    Column("what", String, nullable=False),
    Column("at", Moment, nullable=False),
    Column("outside", Boolean, nullable=False),
    Column("state", String, nullable=False),
    Column("going", String, index=True),
    sqlite_autoincrement=True,
)

TOUCHED = Table(
    "touched",
    METADATA,
    Column("change", ForeignKey("changes.number"), primary_key=True),
    Column("file", String, primary_key=True),
    Column("before", ForeignKey("texts.digest")),
    Column("after", ForeignKey("texts.digest")),
)

KNOWN = Table(
    "known",
    METADATA,
    Column("file", String, primary_key=True),
    Column("text", ForeignKey("texts.digest"), nullable=False),
)

DRAFTS = Table(
    "drafts",
    METADATA,
    Column("page", String, primary_key=True),
    Column("field", String, primary_key=True),
    Column("text", String),
    Column("at", Integer, nullable=False, index=True),
)

TICKS = Table(
    "ticks",
    METADATA,
    Column("scope", String, primary_key=True),
    Column("step", String, primary_key=True),
    Column("at", Moment, nullable=False),
)

NOTES = Table(
    "notes",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("scope", String, nullable=False, index=True),
    Column("step", String, nullable=False),
    Column("text", String, nullable=False),
    Column("at", Moment, nullable=False),
    sqlite_autoincrement=True,
)

TIMERS = Table(
    "timers",
    METADATA,
    Column("number", Integer, primary_key=True),
    Column("scope", String, nullable=False, index=True),
    Column("label", String, nullable=False),
    Column("started_at", Moment, nullable=False),
    Column("minutes", Float, nullable=False),
    Column("state", String, nullable=False, index=True),
    sqlite_autoincrement=True,
)

PHOTOS = Table(
    "photos",
    METADATA,
    Column("scope", String, primary_key=True),
    Column("board", String, primary_key=True),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    Column("corners", String),
    Column("at", Moment, nullable=False),
    Column("jpeg", LargeBinary, nullable=False),
)

SUMMARIES = Table(
    "summaries",
    METADATA,
    Column("digest", String, primary_key=True),
    Column("facts", String, nullable=False),
    Column("svg", String, nullable=False),
    Column("at", Moment, nullable=False, index=True),
)

SCHEMA = Table("schema", METADATA, Column("version", Integer, nullable=False))
