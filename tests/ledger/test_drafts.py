"""Drafts: the one typed later stands, in whatever order they arrive."""

from __future__ import annotations

import time
from itertools import permutations

import pytest

from scantling.errors import ScantlingError
from scantling.ledger import Draft, drafts


@pytest.mark.parametrize("order", list(permutations([1, 2, 3])))
def test_the_latest_stands_in_every_order(ledger, order):
    kept = [ledger.drafts.put("bench", "note", f"typed {at}", at) for at in order]
    assert ledger.drafts.get("bench", "note") == Draft("typed 3", 3)
    assert kept == [at == max(order[: number + 1]) for number, at in enumerate(order)]


def test_drafts_are_by_page_and_field(ledger):
    ledger.drafts.put("bench", "note", "a", 1)
    ledger.drafts.put("bench", "size", "b", 1)
    ledger.drafts.put("desk", "note", "c", 1)
    assert {field: draft.text for field, draft in ledger.drafts.all("bench").items()} == {
        "note": "a",
        "size": "b",
    }
    assert ledger.drafts.get("desk", "size") is None


def test_a_late_draft_does_not_rise_again(ledger):
    ledger.drafts.put("bench", "note", "sent", 5)
    ledger.drafts.clear("bench", "note", 6)
    assert not ledger.drafts.put("bench", "note", "sent", 5)
    assert ledger.drafts.get("bench", "note") is None
    assert ledger.drafts.put("bench", "note", "typed after", 7)


def test_a_clock_that_runs_ahead_does_not_win_for_ever(ledger):
    ahead = (time.time_ns() // 1_000_000) + 3_600_000
    ledger.drafts.put("bench", "note", "from the phone", ahead)
    time.sleep(0.002)
    assert ledger.drafts.put("bench", "note", "from the desk", time.time_ns() // 1_000_000)


def test_a_draft_has_an_end(ledger):
    with pytest.raises(ScantlingError, match="too long"):
        ledger.drafts.put("bench", "note", "x" * (drafts.LONGEST_DRAFT + 1), 1)


def test_half_characters_do_not_stop_it(ledger):
    ledger.drafts.put("bench", "note", "a\ud800b", 1)
    assert ledger.drafts.get("bench", "note") == Draft("a?b", 1)


def test_the_oldest_go_when_there_are_very_many(ledger, monkeypatch):
    monkeypatch.setattr(drafts, "MOST_DRAFTS", 3)
    for at in range(1, 6):
        ledger.drafts.put("bench", f"field {at}", "x", at)
    assert sorted(ledger.drafts.all("bench")) == ["field 3", "field 4", "field 5"]
