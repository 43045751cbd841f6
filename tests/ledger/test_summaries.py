"""Summaries: kept by digest, only so many."""

from __future__ import annotations

from scantling.ledger import Summary, summaries


def test_a_summary_comes_back(ledger):
    ledger.summaries.put("abc", {"must fix": 2, "cost": 31.5, "words": ["a", None]}, "<svg/>")
    ledger.summaries.put("abc", {"must fix": 1}, "<svg></svg>")
    assert ledger.summaries.get("abc") == Summary({"must fix": 1}, "<svg></svg>")
    assert ledger.summaries.get("abd") is None


def test_the_oldest_make_room(ledger, monkeypatch):
    monkeypatch.setattr(summaries, "MOST_SUMMARIES", 3)
    for number in range(5):
        ledger.summaries.put(str(number), {}, "")
    assert [ledger.summaries.get(str(number)) is not None for number in range(5)] == [
        False,
        False,
        True,
        True,
        True,
    ]
