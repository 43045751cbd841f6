"""Times as a maker says them."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.desk.build.clock import at_words, left_words, minutes_said

NOW = datetime(2026, 3, 2, 9, 5).astimezone()  # a Monday


@pytest.mark.parametrize(
    ("when", "words"),
    [
        (datetime(2026, 3, 2, 14, 30), "14:30"),
        (datetime(2026, 3, 2, 0, 0), "0:00"),
        (datetime(2026, 3, 3, 9, 5), "tomorrow 9:05"),
        (datetime(2026, 3, 1, 23, 59), "yesterday 23:59"),
        (datetime(2026, 3, 6, 8, 0), "Fri 8:00"),
        (datetime(2026, 3, 9, 8, 0), "Mon 9 Mar"),
        (datetime(2026, 2, 20, 8, 0), "Fri 20 Feb"),
    ],
)
def test_a_time_is_said_as_near_as_it_is(when: datetime, words: str) -> None:
    assert at_words(when.astimezone(), NOW) == words


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "0 min"),
        (0.2, "1 min"),
        (59, "59 min"),
        (65, "1 h 05 min"),
        (1575, "26 h 15 min"),
        (2880, "2 days"),
    ],
)
def test_what_is_left(minutes: float, words: str) -> None:
    assert left_words(timedelta(minutes=minutes)) == words


@pytest.mark.parametrize(
    ("words", "minutes"),
    [
        ("45", 45),
        ("45 min", 45),
        ("1575.0", 1575),
        ("2 h", 120),
        ("1 h 30", 90),
        ("1h30min", 90),
        ("1,5 hours", 90),
        ("2 days 4 h", 3120),
        ("", None),
        ("soon", None),
        ("-5", None),
        ("45 min of rest", None),
    ],
)
def test_how_long_is_read(words: str, minutes: float | None) -> None:
    assert minutes_said(words) == minutes


@given(st.integers(1, 60 * 47))
def test_what_is_shown_can_be_typed(minutes: int) -> None:
    assert minutes_said(left_words(timedelta(minutes=minutes))) == minutes


@given(st.text(max_size=40))
def test_any_words_are_a_time_or_none(words: str) -> None:
    said = minutes_said(words)
    assert said is None or said >= 0
