"""Waits that grow with each wrong try."""

from __future__ import annotations

from dataclasses import dataclass, field

FIRST_WAIT = 2.0  # s
FORGOTTEN_AFTER = 3600.0  # s
MOST_KEPT = 1000


@dataclass(frozen=True, slots=True)
class _Tries:
    wrong: int
    until: float


@dataclass
class Patience:
    """The first `free` wrong tries cost nothing, then each doubles the wait, up to `longest` [s]."""

    free: int
    longest: float
    _tries: dict[str, _Tries] = field(default_factory=dict)

    def wait(self, who: str, now: float) -> float:
        """How long `who` must still wait before the next try. [s]"""
        tries = self._tries.get(who)
        return max(0.0, tries.until - now) if tries else 0.0

    def wrong(self, who: str, now: float) -> None:
        """`who` tried and was wrong."""
        before = self._tries.pop(who, None)
        fresh = before is None or now - before.until > FORGOTTEN_AFTER
        wrong = 1 if before is None or fresh else before.wrong + 1
        self._tries[who] = _Tries(wrong, now + self._cost(wrong))
        if len(self._tries) > MOST_KEPT:
            del self._tries[next(iter(self._tries))]

    def right(self, who: str) -> None:
        """`who` was right: earlier wrong tries are forgotten."""
        self._tries.pop(who, None)

    def _cost(self, wrong: int) -> float:
        over = min(wrong - self.free, 30)
        return min(FIRST_WAIT * 2.0 ** (over - 1), self.longest) if over > 0 else 0.0
