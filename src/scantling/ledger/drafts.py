"""Words typed on a page and not yet sent, so that no lost line or restart loses them."""

from __future__ import annotations

import time
from dataclasses import dataclass

from sqlalchemy import Connection, select
from sqlalchemy.dialects.sqlite import insert

from scantling.errors import ScantlingError
from scantling.ledger.store import Store
from scantling.ledger.tables import DRAFTS

LONGEST_DRAFT = 1_000_000  # characters: a whole piece file may be typed
MOST_DRAFTS = 2_000


@dataclass(frozen=True, slots=True)
class Draft:
    """What was typed, and when by the page's clock [ms since 1970]."""

    text: str
    at: int


@dataclass(frozen=True, slots=True)
class Drafts:
    """Drafts by page and field. Of two, the one typed later stands, in whatever order they arrive."""

    store: Store

    def put(self, page: str, field: str, text: str, at: int) -> bool:
        """Keep a draft typed at `at` [ms since 1970]; False where a later one stands.

        A time to come counts as now. Raises ScantlingError for more than LONGEST_DRAFT characters.
        """
        if len(text) > LONGEST_DRAFT:
            raise ScantlingError(f"these words are too long to keep; at most {LONGEST_DRAFT:,} characters")
        return self._stand(page, field, text.encode("utf-8", "replace").decode("utf-8"), at)

    def clear(self, page: str, field: str, at: int | None = None) -> bool:
        """Forget a draft, and any typed before `at` (without it: now) that arrives later."""
        return self._stand(page, field, None, _now() if at is None else at)

    def get(self, page: str, field: str) -> Draft | None:
        """The draft of one field."""
        return self.all(page).get(field)

    def all(self, page: str) -> dict[str, Draft]:
        """The drafts of a page by field."""
        wanted = select(DRAFTS).where((DRAFTS.c.page == page) & DRAFTS.c.text.is_not(None))
        with self.store.reading() as connection:
            return {row.field: Draft(row.text, row.at) for row in connection.execute(wanted)}

    def _stand(self, page: str, field: str, text: str | None, at: int) -> bool:
        row = {"page": page, "field": field, "text": text, "at": min(at, _now())}
        put = insert(DRAFTS).values(row)
        later = put.excluded.at >= DRAFTS.c.at
        newer = put.on_conflict_do_update(set_={"text": text, "at": row["at"]}, where=later)
        with self.store.writing() as connection:
            stands = connection.execute(newer).rowcount > 0
            _forget_oldest(connection)
        return stands


def _now() -> int:
    return time.time_ns() // 1_000_000


def _forget_oldest(connection: Connection) -> None:
    oldest = select(DRAFTS.c.at).order_by(DRAFTS.c.at.desc()).offset(MOST_DRAFTS).limit(1).scalar_subquery()
    connection.execute(DRAFTS.delete().where(DRAFTS.c.at <= oldest))
