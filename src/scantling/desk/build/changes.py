"""Lines of a difference between two plans."""

from __future__ import annotations

from dataclasses import dataclass

SHORT = 70  # letters that are read at a glance


@dataclass(frozen=True, slots=True)
class Change:
    """One line: what it is about, what it was and what it will be; `was` or `will` may be ""."""

    about: str
    was: str = ""
    will: str = ""

    @property
    def long(self) -> bool:
        """Whether before and after want a line each."""
        return len(self.was) + len(self.will) > SHORT
