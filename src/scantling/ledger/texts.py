"""Whole texts, each kept once and packed, under the digest of its characters."""

from __future__ import annotations

import zlib
from collections.abc import Iterable
from hashlib import sha256

from sqlalchemy import Connection, select
from sqlalchemy.dialects.sqlite import insert

from scantling.ledger.tables import TEXTS


def digest_of(text: str) -> str:
    """The name a text is kept under: its characters and line ends, nothing else, decide it."""
    return sha256(text.encode("utf-8")).hexdigest()


def kept(connection: Connection, text: str | None) -> str | None:
    """Keep a text, if it is not kept yet; its digest."""
    if text is None:
        return None
    digest = digest_of(text)
    row = {"digest": digest, "body": zlib.compress(text.encode("utf-8"))}
    connection.execute(insert(TEXTS).values(row).on_conflict_do_nothing())
    return digest


def texts_of(connection: Connection, digests: Iterable[str | None]) -> dict[str | None, str | None]:
    """The texts by digest; None stands for no file."""
    wanted = sorted({digest for digest in digests if digest})
    rows = connection.execute(select(TEXTS).where(TEXTS.c.digest.in_(wanted)))
    found: dict[str | None, str | None] = {None: None}
    return found | {row.digest: zlib.decompress(row.body).decode("utf-8") for row in rows}
