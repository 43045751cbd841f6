"""The journal: states of a change, what is known of each file, texts kept once."""

from __future__ import annotations

import pytest
from sqlalchemy import func, select

from scantling.ledger import Going, State, Turn
from scantling.ledger.tables import TEXTS


def done(ledger, what, turns, scope="bench"):
    return ledger.changes.finish(ledger.changes.begin(scope, what, turns).number)


def words(changes):
    return [change.what for change in changes]


def test_an_unfinished_change_is_no_step_yet(ledger):
    change = ledger.changes.begin("bench", "wider", {"bench.yaml": Turn("1", "2")})
    assert words(ledger.changes.unfinished()) == ["wider"]
    assert ledger.changes.listed("bench") == ()
    assert ledger.changes.known() == {}
    finished = ledger.changes.finish(change.number)
    assert (finished.state, finished.going, finished.files) == (State.DONE, None, ("bench.yaml",))
    assert ledger.changes.listed("bench") == (finished,)
    assert ledger.changes.known_text("bench.yaml") == "2"


def test_back_and_again(ledger):
    first = done(ledger, "wider", {"bench.yaml": Turn("1", "2")})
    second = done(ledger, "deeper", {"bench.yaml": Turn("2", "3"), "new.yaml": Turn(None, "n")})
    for change in (second, first):
        ledger.changes.set_out(change.number, Going.BACK)
        assert ledger.changes.finish(change.number).state is State.UNDONE
    assert words(ledger.changes.listed("bench", State.UNDONE)) == ["wider", "deeper"]
    assert ledger.changes.known().keys() == {"bench.yaml"}
    ledger.changes.set_out(first.number, Going.AGAIN)
    ledger.changes.finish(first.number)
    assert words(ledger.changes.listed("bench", State.DONE)) == ["wider"]
    assert ledger.changes.known_text("bench.yaml") == "2"


def test_a_new_change_drops_what_was_taken_back_but_keeps_it_in_the_journal(ledger):
    old = done(ledger, "wider", {"bench.yaml": Turn("1", "2")})
    elsewhere = done(ledger, "other", {"desk.yaml": Turn("1", "2")}, "desk")
    for change in (old, elsewhere):
        ledger.changes.set_out(change.number, Going.BACK)
        ledger.changes.finish(change.number)
    done(ledger, "deeper", {"bench.yaml": Turn("1", "3")})
    assert ledger.changes.listed("bench", State.UNDONE) == ()
    assert words(ledger.changes.listed("desk", State.UNDONE)) == ["other"]
    assert [(c.what, c.state) for c in ledger.changes.listed("bench")] == [
        ("deeper", State.DONE),
        ("wider", State.DROPPED),
    ]
    assert ledger.changes.turns(old.number) == {"bench.yaml": Turn("1", "2")}


@pytest.mark.parametrize(("going", "left"), [(None, State.DROPPED), (Going.BACK, State.DONE)])
def test_giving_up_leaves_what_was(ledger, going, left):
    change = ledger.changes.begin("bench", "wider", {"bench.yaml": Turn("1", "2")})
    if going:
        ledger.changes.finish(change.number)
        ledger.changes.set_out(change.number, going)
    known = ledger.changes.known()
    ledger.changes.give_up(change.number)
    assert ledger.changes.unfinished() == ()
    assert [c.state for c in ledger.changes.listed("bench")] == [left]
    assert ledger.changes.known() == known


def test_a_change_from_outside_is_done_at_once(ledger):
    change = ledger.changes.noted("bench", "changed outside", {"bench.yaml": Turn("1", "2")})
    assert (change.outside, change.state) == (True, State.DONE)
    assert ledger.changes.known_text("bench.yaml") == "2"
    ledger.changes.noted("bench", "gone", {"bench.yaml": Turn("2", None)})
    assert ledger.changes.known() == {}


def test_texts_are_kept_once(ledger):
    text = "piece: Bench\n" * 1000
    for number in range(4):
        pair = (text, text + "x") if number % 2 == 0 else (text + "x", text)
        done(ledger, str(number), {"bench.yaml": Turn(*pair)})
    with ledger.store.reading() as connection:
        assert connection.execute(select(func.count()).select_from(TEXTS)).scalar() == 2
        assert connection.execute(select(func.sum(func.length(TEXTS.c.body)))).scalar() < 1000
