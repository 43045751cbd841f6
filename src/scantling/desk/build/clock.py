"""Times of day as a maker says them."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

LONGEST_SAID = 60  # characters


def at_words(when: datetime, now: datetime) -> str:
    """In the machine's own zone: "14:30", "tomorrow 9:05", "Fri 9:05", "Fri 25 Dec"."""
    here, today = when.astimezone(), now.astimezone()
    clock = f"{here.hour}:{here.minute:02}"
    days = (here.date() - today.date()).days
    if days == 0:
        return clock
    if days in (1, -1):
        return f"{'tomorrow' if days > 0 else 'yesterday'} {clock}"
    return f"{here:%a} {clock}" if 1 < days < 7 else f"{here:%a} {here.day} {here:%b}"


def left_words(left: timedelta) -> str:
    """A time to wait, rounded up: to minutes, over two days to hours: "1 min", "2 h 05 min", "3 days 4 h"."""
    minutes = -(-int(left.total_seconds()) // 60)
    hours, rest = divmod(minutes, 60)
    if hours >= 48:
        days, over = divmod(-(-minutes // 60), 24)
        return f"{days} days {over} h" if over else f"{days} days"
    return f"{hours} h {rest:02} min" if hours else f"{rest} min"


def minutes_said(words: str) -> float | None:
    """How long words say: "45", "45 min", "2 h", "1 h 30 min", "2 days"; None where they say no time."""
    found = _LONG.fullmatch(" ".join(words.split()).lower()) if len(words) <= LONGEST_SAID else None
    if found is None or not any(found.groups()):
        return None
    days, hours, minutes = (float((part or "0").replace(",", ".")) for part in found.groups())
    return days * 24 * 60 + hours * 60 + minutes


_NUMBER = r"(\d{1,6}(?:[.,]\d{1,4})?)"
_LONG = re.compile(
    rf"(?:{_NUMBER}\s*d(?:ays?)?)?\s*(?:{_NUMBER}\s*h(?:ours?)?)?\s*(?:{_NUMBER}\s*(?:m(?:in(?:utes?)?)?)?)?"
)
