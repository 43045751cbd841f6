"""Ticks, notes and timers of a build."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from scantling.errors import ScantlingError
from scantling.ledger import TimerState, open_ledger


def test_a_tick_keeps_its_first_time(ledger):
    first = ledger.builds.tick("bench", "mill legs")
    assert ledger.builds.tick("bench", "mill legs") == first
    assert ledger.builds.ticks("bench") == {"mill legs": first}
    assert abs(datetime.now(UTC) - first) < timedelta(seconds=30)


def test_a_tick_is_taken_back(ledger):
    ledger.builds.tick("bench", "mill legs")
    ledger.builds.tick("desk", "mill legs")
    ledger.builds.untick("bench", "mill legs")
    ledger.builds.untick("bench", "never ticked")
    assert ledger.builds.ticks("bench") == {}
    assert ledger.builds.being_built() == {"desk"}


def test_notes_keep_every_writing(ledger):
    ledger.builds.note("bench", "cut slow", "mill legs")
    ledger.builds.note("bench", "whole build")
    ledger.builds.note("bench", "cut slower", "mill legs")
    ledger.builds.note("desk", "elsewhere", "mill legs")
    standing = ledger.builds.notes("bench")
    assert {step: note.text for step, note in standing.items()} == {
        "": "whole build",
        "mill legs": "cut slower",
    }
    history = ledger.builds.note_history("bench", "mill legs")
    assert [note.text for note in history] == ["cut slower", "cut slow"]


def test_a_note_taken_out_stays_in_its_history(ledger):
    ledger.builds.note("bench", "cut slow", "mill legs")
    ledger.builds.note("bench", "", "mill legs")
    assert ledger.builds.notes("bench") == {}
    assert [note.text for note in ledger.builds.note_history("bench", "mill legs")] == ["", "cut slow"]


def test_a_note_has_an_end(ledger):
    with pytest.raises(ScantlingError, match="too long"):
        ledger.builds.note("bench", "x" * 20_001)


def test_a_timer_goes_on_over_a_restart(path):
    first = open_ledger(path)
    started = first.builds.start_timer("bench", "glue", 30)
    first.close()
    again = open_ledger(path)
    (timer,) = again.builds.timers("bench")
    assert timer == started
    assert timer.left(started.started_at + timedelta(minutes=12)) == timedelta(minutes=18)
    assert timer.left(started.started_at + timedelta(minutes=45)) == timedelta()
    assert timer.ends_at == started.started_at + timedelta(minutes=30)
    again.close()


def test_a_timer_is_stopped_or_rings_but_not_both(ledger):
    glue = ledger.builds.start_timer("bench", "glue", 30)
    oil = ledger.builds.start_timer("desk", "oil", 600)
    assert ledger.builds.running() == (glue, oil)
    ledger.builds.rung(glue.number)
    ledger.builds.stop_timer(glue.number)
    ledger.builds.stop_timer(oil.number)
    assert ledger.builds.running() == ()
    assert [t.state for t in ledger.builds.timers("bench")] == [TimerState.RUNG]
    (stopped,) = ledger.builds.timers("desk")
    assert (stopped.state, stopped.left(stopped.started_at)) == (TimerState.STOPPED, timedelta())


@pytest.mark.parametrize("minutes", [0, -3, 1e9, float("nan")])
def test_a_timer_runs_a_sensible_time(ledger, minutes):
    with pytest.raises(ScantlingError, match="timer"):
        ledger.builds.start_timer("bench", "glue", minutes)
