"""Opening the ledger: made if there is none, brought up to date, set aside if it is damaged."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection, func, inspect, select

from scantling.errors import ScantlingError
from scantling.ledger.builds import Builds
from scantling.ledger.changes import Changes
from scantling.ledger.drafts import Drafts
from scantling.ledger.photos import Photos
from scantling.ledger.store import PATIENCE, LedgerTrouble, Store, store_at, told_plainly
from scantling.ledger.summaries import Summaries
from scantling.ledger.tables import METADATA, SCHEMA

OURS = 0x5363616E  # "Scan", in the header of every ledger
# One step a version, from the oldest on: step n brings version n + 1 to n + 2. Never taken out.
STEPS: tuple[Callable[[Connection], None], ...] = ()
# Texts and pictures are left out: they grow without end, and a bad one is found when it is asked for.
_LOOKED_THROUGH = ("changes", "touched", "known", "drafts", "ticks", "notes", "timers")
_MAGIC = b"SQLite format 3\0"
_BESIDE = ("", "-wal", "-shm")


@dataclass(frozen=True, slots=True)
class Ledger:
    """Everything the desk remembers about one folder. `notice`: what a maker should hear first, or ""."""

    path: Path
    store: Store
    changes: Changes
    drafts: Drafts
    builds: Builds
    photos: Photos
    summaries: Summaries
    notice: str = ""

    def close(self) -> None:
        """Let go of the file."""
        self.store.engine.dispose()


def open_ledger(path: Path) -> Ledger:
    """The ledger at `path`; folder and tables are made if there are none.

    A damaged or foreign file there is renamed and told in `notice`. Raises LedgerTrouble where the file
    cannot be used at all, or was written by a newer Scantling.
    """
    notice = _set_aside(path, trouble) if (trouble := _trouble_with(path)) else ""
    store = store_at(path)
    try:
        with store.writing() as connection:
            _bring_up_to_date(connection)
    except BaseException:
        store.engine.dispose()
        raise
    return Ledger(
        path, store, Changes(store), Drafts(store), Builds(store), Photos(store), Summaries(store), notice
    )


def _trouble_with(path: Path) -> str:
    """Why the file at `path` is no ledger to go on with, or ""."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.stat().st_size == 0:
            return ""
        with path.open("rb") as file:
            if file.read(len(_MAGIC)) != _MAGIC:
                return "was no ledger"
    except OSError as error:
        raise LedgerTrouble(f"the desk's ledger cannot be opened: {error.strerror or error}") from error
    return _trouble_inside(path)


def _trouble_inside(path: Path) -> str:
    try:
        with told_plainly(), closing(sqlite3.connect(path, timeout=PATIENCE)) as raw:
            tables = {name for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
            if raw.execute("PRAGMA application_id").fetchone()[0] != OURS:
                return "belonged to another program" if tables else ""
            return next((bad for name in _LOOKED_THROUGH if name in tables and (bad := _bad(raw, name))), "")
    except LedgerTrouble as trouble:
        if isinstance(trouble.__cause__, sqlite3.OperationalError):
            raise
        return "was damaged"


def _bad(raw: sqlite3.Connection, table: str) -> str:
    return "" if raw.execute(f"PRAGMA quick_check({table})").fetchone()[0] == "ok" else "was damaged"


def _set_aside(path: Path, trouble: str) -> str:
    stamp = datetime.now().strftime("%Y%m%d-%H%M%S-%f")
    aside = path.with_name(f"{path.name}.{stamp}.aside")
    try:
        for ending in _BESIDE:
            beside = path.with_name(path.name + ending)
            if beside.exists():
                os.replace(beside, aside.with_name(aside.name + ending))
    except OSError as error:
        reason = error.strerror or error
        raise LedgerTrouble(f'the file "{path.name}" {trouble} and cannot be set aside: {reason}') from error
    return (
        f'The file "{path.name}" {trouble}. It is kept as "{aside.name}", and a new one was begun: '
        "your pieces are as they were, but ticks, notes, photos and earlier steps to undo are not in it."
    )


def _bring_up_to_date(connection: Connection) -> None:
    newest = 1 + len(STEPS)
    if not inspect(connection).has_table(SCHEMA.name):
        connection.exec_driver_sql(f"PRAGMA application_id = {OURS}")
        METADATA.create_all(connection)
        connection.execute(SCHEMA.insert().values(version=newest))
        return
    version = connection.execute(select(func.max(SCHEMA.c.version))).scalar_one()
    if version > newest:
        raise ScantlingError("this folder was last used by a newer Scantling; use that one, or a newer still")
    for step in STEPS[version - 1 :]:
        step(connection)
    connection.execute(SCHEMA.update().values(version=newest))
