"""Saying several things in one phrase."""

from __future__ import annotations

from collections.abc import Sequence


def listed(words: Sequence[str], last: str = "and") -> str:
    """The words in one phrase.

    >>> listed(["legs", "rails", "top"])
    'legs, rails and top'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
