"""The journal of changes to files, and what each file held when it was last written or seen.

A change is set out on before its files are written and finished after, so that a crash between leaves a
mark. Going back and going again are set out on and finished the same way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from enum import StrEnum
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Connection, Row, select, update
from sqlalchemy.dialects.sqlite import insert

from scantling.ledger.store import Store
from scantling.ledger.tables import CHANGES, KNOWN, TOUCHED
from scantling.ledger.texts import kept, texts_of


class State(StrEnum):
    """DONE: the files hold it. UNDONE: taken back, may be done again. DROPPED: out of reach for good."""

    DONE = "done"
    UNDONE = "undone"
    DROPPED = "dropped"


class Going(StrEnum):
    """What an unfinished change was about to do."""

    NEW = "new"
    BACK = "back"
    AGAIN = "again"


class Turn(NamedTuple):
    """One file's text before and after a change; None: there is no file."""

    before: str | None
    after: str | None

    def back(self) -> Turn:
        """The same the other way."""
        return Turn(self.after, self.before)


@dataclass(frozen=True, slots=True)
class Change:
    """One line of the journal. `what`: in words; `outside`: by another program; `files`: their names."""

    number: int
    scope: str
    what: str
    when: datetime
    outside: bool
    state: State
    going: Going | None
    files: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Changes:
    """All changes of a folder, by scope and in order."""

    store: Store

    def begin(self, scope: str, what: str, turns: Mapping[str, Turn]) -> Change:
        """Set out on a new change; `finish` it once all files are written."""
        with self.store.writing() as connection:
            return _added(connection, scope, what, turns, Going.NEW)

    def noted(self, scope: str, what: str, turns: Mapping[str, Turn]) -> Change:
        """Put down a change that another program has made."""
        with self.store.writing() as connection:
            _drop_undone(connection, scope)
            _know(connection, {file: turn.after for file, turn in turns.items()})
            return _added(connection, scope, what, turns, None)

    def set_out(self, number: int, going: Going) -> None:
        """Set out to take a change back, or to do it again."""
        with self.store.writing() as connection:
            _set(connection, number, going=going)

    def finish(self, number: int) -> Change:
        """All files are written. A new change drops what was taken back before it."""
        with self.store.writing() as connection:
            change = _one(connection, number)
            back = change.going is Going.BACK
            finished = replace(change, going=None, state=State.UNDONE if back else State.DONE)
            _set(connection, number, going=None, state=finished.state)
            if change.going is Going.NEW:
                _drop_undone(connection, change.scope)
            turns = _turns(connection, number)
            _know(connection, {f: turn.before if back else turn.after for f, turn in turns.items()})
            return finished

    def give_up(self, number: int) -> None:
        """The files are as they were before setting out."""
        with self.store.writing() as connection:
            new = _one(connection, number).going is Going.NEW
            _set(connection, number, going=None, **({"state": State.DROPPED} if new else {}))

    def drop(self, number: int) -> None:
        """Put a change out of reach of going back and again."""
        with self.store.writing() as connection:
            _set(connection, number, state=State.DROPPED)

    def unfinished(self) -> tuple[Change, ...]:
        """What was set out on and neither finished nor given up, oldest first."""
        return self._found(CHANGES.c.going.is_not(None), order=CHANGES.c.number)

    def listed(self, scope: str, state: State | None = None, most: int = 1_000) -> tuple[Change, ...]:
        """The changes of a scope, newest first; those taken back: next to be done again first."""
        wanted = CHANGES.c.going.is_(None) & (CHANGES.c.scope == scope)
        if state is not None:
            wanted &= CHANGES.c.state == state
        undone = state is State.UNDONE
        return self._found(wanted, order=CHANGES.c.number if undone else CHANGES.c.number.desc(), most=most)

    def turns(self, number: int) -> dict[str, Turn]:
        """The texts of a change, by file."""
        with self.store.reading() as connection:
            return _turns(connection, number)

    def know(self, texts: Mapping[str, str | None]) -> None:
        """What files hold now, without a line in the journal; None: the file is gone."""
        with self.store.writing() as connection:
            _know(connection, texts)

    def known(self) -> dict[str, str]:
        """The digest of what each file held when it was last written or seen."""
        with self.store.reading() as connection:
            return {row.file: row.text for row in connection.execute(select(KNOWN))}

    def known_text(self, file: str) -> str | None:
        """What a file held when it was last written or seen; None: nothing is known."""
        with self.store.reading() as connection:
            digest = connection.execute(select(KNOWN.c.text).where(KNOWN.c.file == file)).scalar()
            return texts_of(connection, [digest])[digest]

    def _found(
        self, wanted: ColumnElement[bool], order: ColumnElement[Any], most: int = 1_000
    ) -> tuple[Change, ...]:
        with self.store.reading() as connection:
            rows = connection.execute(select(CHANGES).where(wanted).order_by(order).limit(most)).all()
            files = _files(connection, [row.number for row in rows])
            return tuple(_change(row, files.get(row.number, ())) for row in rows)


def _added(
    connection: Connection, scope: str, what: str, turns: Mapping[str, Turn], going: Going | None
) -> Change:
    """A change of the desk's own is not done before it is finished; one from outside is."""
    state, now = (State.UNDONE if going else State.DONE), datetime.now(UTC)
    row = {"scope": scope, "what": what, "at": now, "outside": going is None, "state": state, "going": going}
    added = connection.execute(CHANGES.insert().values(row))
    (number,) = added.inserted_primary_key or (0,)
    for file, turn in turns.items():
        before, after = kept(connection, turn.before), kept(connection, turn.after)
        connection.execute(TOUCHED.insert().values(change=number, file=file, before=before, after=after))
    return Change(number, scope, what, now, going is None, state, going, tuple(sorted(turns)))


def _one(connection: Connection, number: int) -> Change:
    row = connection.execute(select(CHANGES).where(CHANGES.c.number == number)).one()
    return _change(row, _files(connection, [number])[number])


def _change(row: Row[Any], files: tuple[str, ...]) -> Change:
    going = Going(row.going) if row.going else None
    state = State(row.state)
    return Change(row.number, row.scope, row.what, row.at, row.outside, state, going, files)


def _files(connection: Connection, numbers: list[int]) -> dict[int, tuple[str, ...]]:
    wanted = select(TOUCHED.c.change, TOUCHED.c.file).where(TOUCHED.c.change.in_(numbers))
    found: dict[int, tuple[str, ...]] = {}
    for row in connection.execute(wanted.order_by(TOUCHED.c.file)):
        found[row.change] = (*found.get(row.change, ()), row.file)
    return found


def _turns(connection: Connection, number: int) -> dict[str, Turn]:
    rows = connection.execute(select(TOUCHED).where(TOUCHED.c.change == number)).all()
    texts = texts_of(connection, [digest for row in rows for digest in (row.before, row.after)])
    return {row.file: Turn(texts[row.before], texts[row.after]) for row in rows}


def _set(connection: Connection, number: int, **values: Any) -> None:
    connection.execute(update(CHANGES).where(CHANGES.c.number == number).values(values))


def _drop_undone(connection: Connection, scope: str) -> None:
    undone = (CHANGES.c.scope == scope) & (CHANGES.c.state == State.UNDONE) & CHANGES.c.going.is_(None)
    connection.execute(update(CHANGES).where(undone).values(state=State.DROPPED))


def _know(connection: Connection, texts: Mapping[str, str | None]) -> None:
    for file, text in texts.items():
        if text is None:
            connection.execute(KNOWN.delete().where(KNOWN.c.file == file))
            continue
        row = {"file": file, "text": kept(connection, text)}
        connection.execute(insert(KNOWN).values(row).on_conflict_do_update(set_={"text": row["text"]}))
