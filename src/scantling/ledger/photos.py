"""Photos of boards, with the four corners that straighten them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import ColumnElement, Row, select, update
from sqlalchemy.dialects.sqlite import insert

from scantling.errors import ScantlingError
from scantling.ledger.store import Store
from scantling.ledger.tables import PHOTOS

BIGGEST = 8_000_000  # bytes
_FACTS = [column for column in PHOTOS.c if column.name != "jpeg"]

Corners = tuple[tuple[float, float], tuple[float, float], tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo without its bytes. `width`, `height` in pixels.

    `corners`: the board's, as fractions of width and height, in the order the page draws them; None: not set.
    """

    board: str
    width: int
    height: int
    corners: Corners | None
    when: datetime


@dataclass(frozen=True, slots=True)
class Photos:
    """One photo a board; boards by scope."""

    store: Store

    def put(
        self, scope: str, board: str, jpeg: bytes, width: int, height: int, corners: Corners | None = None
    ) -> Photo:
        """Keep a photo in place of the board's last one. Raises ScantlingError past BIGGEST bytes."""
        if len(jpeg) > BIGGEST:
            raise ScantlingError(f"this photo is too big; at most {BIGGEST // 1_000_000} MB are kept")
        row = {"scope": scope, "board": board, "jpeg": jpeg, "width": width, "height": height}
        row |= {"corners": _packed(corners), "at": datetime.now(UTC)}
        with self.store.writing() as connection:
            connection.execute(insert(PHOTOS).values(row).on_conflict_do_update(set_=row))
            return _photo(connection.execute(select(*_FACTS).where(_is(scope, board))).one())

    def set_corners(self, scope: str, board: str, corners: Corners | None) -> None:
        """Where the board's corners are in its photo. Raises ScantlingError for points outside it."""
        with self.store.writing() as connection:
            changed = update(PHOTOS).where(_is(scope, board)).values(corners=_packed(corners))
            connection.execute(changed)

    def all(self, scope: str) -> dict[str, Photo]:
        """The photos of a scope by board."""
        with self.store.reading() as connection:
            rows = connection.execute(select(*_FACTS).where(PHOTOS.c.scope == scope))
            return {row.board: _photo(row) for row in rows}

    def get(self, scope: str, board: str) -> Photo | None:
        """A board's photo, without its bytes."""
        with self.store.reading() as connection:
            row = connection.execute(select(*_FACTS).where(_is(scope, board))).one_or_none()
            return _photo(row) if row else None

    def jpeg(self, scope: str, board: str) -> bytes | None:
        """The bytes of a board's photo."""
        with self.store.reading() as connection:
            return connection.execute(select(PHOTOS.c.jpeg).where(_is(scope, board))).scalar_one_or_none()

    def remove(self, scope: str, board: str) -> None:
        """Forget a board's photo."""
        with self.store.writing() as connection:
            connection.execute(PHOTOS.delete().where(_is(scope, board)))


def _is(scope: str, board: str) -> ColumnElement[bool]:
    return (PHOTOS.c.scope == scope) & (PHOTOS.c.board == board)


def _packed(corners: Corners | None) -> str | None:
    if corners is None:
        return None
    if len(corners) != 4 or not all(0 <= part <= 1 for point in corners for part in point):
        raise ScantlingError("a board has four corners, and all of them lie in its photo")
    return json.dumps(corners)


def _photo(row: Row[Any]) -> Photo:
    corners = _corners(json.loads(row.corners)) if row.corners else None
    return Photo(row.board, row.width, row.height, corners, row.at)


def _corners(points: Sequence[Sequence[float]]) -> Corners:
    first, second, third, fourth = ((x, y) for x, y in points)
    return first, second, third, fourth
