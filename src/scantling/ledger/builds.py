"""The build of a piece: what is done, what was noted, what is being waited for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from typing import Any

from sqlalchemy import ColumnElement, Row, func, select, update
from sqlalchemy.dialects.sqlite import insert

from scantling.errors import ScantlingError
from scantling.ledger.store import Store
from scantling.ledger.tables import NOTES, TICKS, TIMERS

LONGEST_NOTE = 20_000  # characters
LONGEST_WAIT = 60.0 * 24 * 60  # minutes: sixty days, longer than any oil takes


class TimerState(StrEnum):
    """STOPPED: by hand, before its end. RUNG: its end was told."""

    RUNNING = "running"
    STOPPED = "stopped"
    RUNG = "rung"


@dataclass(frozen=True, slots=True)
class Note:
    """One writing of a note. `step`: the step's key, "" for the build as a whole; "" as text: taken out."""

    number: int
    step: str
    text: str
    when: datetime


@dataclass(frozen=True, slots=True)
class Timer:
    """Something waited for. What is left follows from the start, so no restart disturbs it."""

    number: int
    scope: str
    label: str
    started_at: datetime
    minutes: float
    state: TimerState

    @property
    def ends_at(self) -> datetime:
        """When it is over."""
        return self.started_at + timedelta(minutes=self.minutes)

    def left(self, now: datetime) -> timedelta:
        """How long it still runs at `now`; nothing once it is over or stopped."""
        if self.state is not TimerState.RUNNING:
            return timedelta()
        return max(timedelta(), self.ends_at - now)


@dataclass(frozen=True, slots=True)
class Builds:
    """Ticks, notes and timers by scope: one build of one piece."""

    store: Store

    def tick(self, scope: str, step: str, when: datetime | None = None) -> datetime:
        """A step is done, now or at `when`; when it was first ticked."""
        row = {"scope": scope, "step": step, "at": when or datetime.now(UTC)}
        with self.store.writing() as connection:
            connection.execute(insert(TICKS).values(row).on_conflict_do_nothing())
            wanted = select(TICKS.c.at).where((TICKS.c.scope == scope) & (TICKS.c.step == step))
            first: datetime = connection.execute(wanted).scalar_one()
            return first

    def untick(self, scope: str, step: str) -> None:
        """A step is not done after all."""
        with self.store.writing() as connection:
            connection.execute(TICKS.delete().where((TICKS.c.scope == scope) & (TICKS.c.step == step)))

    def ticks(self, scope: str) -> dict[str, datetime]:
        """The steps that are done, and when."""
        with self.store.reading() as connection:
            rows = connection.execute(select(TICKS).where(TICKS.c.scope == scope).order_by(TICKS.c.at))
            return {row.step: row.at for row in rows}

    def being_built(self) -> frozenset[str]:
        """The scopes in which a step is done."""
        with self.store.reading() as connection:
            return frozenset(connection.execute(select(TICKS.c.scope).distinct()).scalars())

    def note(self, scope: str, text: str, step: str = "") -> Note:
        """Write the note of a step, or of the whole build; what stood there stays in its history.

        Raises ScantlingError for more than LONGEST_NOTE characters.
        """
        if len(text) > LONGEST_NOTE:
            raise ScantlingError(f"this note is too long; at most {LONGEST_NOTE:,} characters are kept")
        now = datetime.now(UTC)
        row = {"scope": scope, "step": step, "text": text, "at": now}
        with self.store.writing() as connection:
            added = connection.execute(NOTES.insert().values(row))
            (number,) = added.inserted_primary_key or (0,)
            return Note(number, step, text, now)

    def notes(self, scope: str) -> dict[str, Note]:
        """The notes as they stand, by step key; that of the whole build under ""."""
        newest = select(func.max(NOTES.c.number)).where(NOTES.c.scope == scope).group_by(NOTES.c.step)
        return {note.step: note for note in self._notes(NOTES.c.number.in_(newest)) if note.text}

    def note_history(self, scope: str, step: str = "") -> tuple[Note, ...]:
        """Every writing of one note, newest first."""
        return self._notes((NOTES.c.scope == scope) & (NOTES.c.step == step))

    def start_timer(self, scope: str, label: str, minutes: float) -> Timer:
        """Wait for something from now on. Raises ScantlingError for a wait of nothing or without end."""
        if not 0 < minutes <= LONGEST_WAIT:
            raise ScantlingError("a timer runs longer than nothing and at most sixty days")
        now = datetime.now(UTC)
        row = {"scope": scope, "label": label, "started_at": now, "minutes": minutes}
        with self.store.writing() as connection:
            added = connection.execute(TIMERS.insert().values(row | {"state": TimerState.RUNNING}))
            (number,) = added.inserted_primary_key or (0,)
            return Timer(number, scope, label, now, minutes, TimerState.RUNNING)

    def stop_timer(self, number: int) -> None:
        """Wait no longer; one that has rung stays so."""
        self._end(number, TimerState.STOPPED)

    def rung(self, number: int) -> None:
        """A timer's end was told."""
        self._end(number, TimerState.RUNG)

    def timers(self, scope: str) -> tuple[Timer, ...]:
        """All timers of a build, oldest first."""
        return self._timers(TIMERS.c.scope == scope)

    def running(self) -> tuple[Timer, ...]:
        """The timers of all builds whose end was not told yet, oldest first."""
        return self._timers(TIMERS.c.state == TimerState.RUNNING)

    def _end(self, number: int, state: TimerState) -> None:
        going = (TIMERS.c.number == number) & (TIMERS.c.state == TimerState.RUNNING)
        with self.store.writing() as connection:
            connection.execute(update(TIMERS).where(going).values(state=state))

    def _notes(self, wanted: ColumnElement[bool]) -> tuple[Note, ...]:
        with self.store.reading() as connection:
            rows = connection.execute(select(NOTES).where(wanted).order_by(NOTES.c.number.desc()))
            return tuple(Note(row.number, row.step, row.text, row.at) for row in rows)

    def _timers(self, wanted: ColumnElement[bool]) -> tuple[Timer, ...]:
        with self.store.reading() as connection:
            rows = connection.execute(select(TIMERS).where(wanted).order_by(TIMERS.c.number))
            return tuple(map(_timer, rows))


def _timer(row: Row[Any]) -> Timer:
    return Timer(row.number, row.scope, row.label, row.started_at, row.minutes, TimerState(row.state))
