"""The door to the database: reading and writing, each in one transaction, troubles told plainly."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, Engine, QueuePool, create_engine, event
from sqlalchemy.exc import DBAPIError

from scantling.errors import ScantlingError

PATIENCE = 5.0  # seconds to wait for another writer


class LedgerTrouble(ScantlingError):
    """The ledger could not be read or written: what happened; nothing of the act was kept."""


@dataclass(frozen=True, slots=True)
class Store:
    """One database file. Many threads may use it at once; writers wait for each other."""

    engine: Engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A view that does not move while it is read."""
        with told_plainly(), self.engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """All of it is on disk when the block is left, or none of it."""
        with told_plainly(), self.engine.connect() as connection:
            connection.execution_options(begins="BEGIN IMMEDIATE")
            with connection.begin():
                yield connection


def store_at(path: Path) -> Store:
    """The door to the file at `path`, which is made if there is none."""
    engine = create_engine("sqlite://", creator=lambda: _connected(path), poolclass=QueuePool)
    event.listen(engine, "begin", _begin)
    return Store(engine)


def _connected(path: Path) -> sqlite3.Connection:
    raw = sqlite3.connect(path, timeout=PATIENCE, isolation_level=None, check_same_thread=False)
    for setting in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        raw.execute(f"PRAGMA {setting}")
    return raw


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(connection.get_execution_options().get("begins", "BEGIN"))


@contextmanager
def told_plainly() -> Iterator[None]:
    """Turn what the database says into words for makers."""
    try:
        yield
    except (DBAPIError, sqlite3.Error) as error:
        said = str(error.orig if isinstance(error, DBAPIError) else error)
        raise LedgerTrouble(f"the desk's ledger could not be used: {_plain(said)}") from error


def _plain(said: str) -> str:
    known = {
        "locked": "another program is writing in it; try again in a moment",
        "full": "the disk is full; make room, then try again",
        "readonly": "it may only be read; see who may write in the folder",
        "unable to open": "it cannot be opened; see who may write in the folder",
        "malformed": "it is damaged; start the desk again, and it will be set aside",
    }
    return next((words for sign, words in known.items() if sign in said), said)
