"""What a plan came to, in short, kept under the digest of what it was made from."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import Connection, select
from sqlalchemy.dialects.sqlite import insert

from scantling.ledger.store import Store
from scantling.ledger.tables import SUMMARIES

MOST_SUMMARIES = 300


@dataclass(frozen=True, slots=True)
class Summary:
    """`facts`: whatever JSON holds; `svg`: the picture."""

    facts: dict[str, Any]
    svg: str


@dataclass(frozen=True, slots=True)
class Summaries:
    """Summaries by digest; past MOST_SUMMARIES the oldest are forgotten."""

    store: Store

    def put(self, digest: str, facts: dict[str, Any], svg: str) -> None:
        """Keep a summary."""
        row = {"digest": digest, "facts": json.dumps(facts), "svg": svg, "at": datetime.now(UTC)}
        with self.store.writing() as connection:
            connection.execute(insert(SUMMARIES).values(row).on_conflict_do_update(set_=row))
            _forget_oldest(connection)

    def get(self, digest: str) -> Summary | None:
        """The summary of these inputs, if it is kept."""
        with self.store.reading() as connection:
            row = connection.execute(select(SUMMARIES).where(SUMMARIES.c.digest == digest)).one_or_none()
            return Summary(json.loads(row.facts), row.svg) if row else None


def _forget_oldest(connection: Connection) -> None:
    newest = select(SUMMARIES.c.digest).order_by(SUMMARIES.c.at.desc(), SUMMARIES.c.digest)
    connection.execute(SUMMARIES.delete().where(SUMMARIES.c.digest.not_in(newest.limit(MOST_SUMMARIES))))
