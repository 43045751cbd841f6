"""Cutting stock in one dimension, in whole units: lengths wanted, sticks to cut them from, their cost."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Stick:
    """Equal sticks: `supply` of them (None: as many as wanted), each costing `cost`, a whole number.

    `trim`: unusable at the start and at the end. `flaws`: stretches (low, high) nothing may lie over, apart
    and in order; a cut may pass through one.
    """

    length: int
    cost: int = 1
    supply: int | None = None
    trim: tuple[int, int] = (0, 0)
    flaws: tuple[tuple[int, int], ...] = ()

    def rooms(self, kerf: int) -> tuple[tuple[int, int], ...]:
        """Clear stretches (start, room): lengths fit one of them if each with a kerf more adds up to `room`.

        The kerf after the last length may fall off the stick, into the trim or into a flaw; what begins after
        a trim or flaw narrower than the kerf begins a kerf after where that began.
        """
        low, found = (max(self.trim[0], kerf) if self.trim[0] else 0), []
        for start, end in (*self.flaws, (self.length - self.trim[1], self.length)):
            if start > low:
                found.append((low, start - low + kerf))
            low = max(low, end, start + kerf)
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Length:
    """`demand` pieces of one length."""

    length: int
    demand: int = 1


@dataclass(frozen=True)
class StickProblem:
    """Raises ValueError for a length, cost, supply or demand that makes no sense."""

    sticks: tuple[Stick, ...]
    wanted: tuple[Length, ...]
    kerf: int = 0

    def __post_init__(self) -> None:
        if self.kerf < 0:
            raise ValueError("a kerf must not be negative")
        for stick in self.sticks:
            _check_stick(stick)
        for want in self.wanted:
            if want.length <= 0 or want.demand < 0:
                raise ValueError(f"{want.demand} of length {want.length} cannot be asked for")

    @cached_property
    def rooms(self) -> tuple[tuple[int, ...], ...]:
        """Of each stick, how much each of its clear stretches takes, a kerf to each length."""
        return tuple(tuple(room for _, room in stick.rooms(self.kerf)) for stick in self.sticks)

    @cached_property
    def asked(self) -> tuple[int, ...]:
        """Of each length wanted, what it takes of a room."""
        return tuple(want.length + self.kerf for want in self.wanted)

    @cached_property
    def too_long(self) -> frozenset[int]:
        """Numbers of lengths that no stick there is can give."""
        most = max(
            (max(r, default=0) for s, r in zip(self.sticks, self.rooms, strict=True) if s.supply != 0),
            default=0,
        )
        return frozenset(n for n, takes in enumerate(self.asked) if takes > most)


def _check_stick(stick: Stick) -> None:
    if stick.length <= 0 or stick.cost < 0 or (stick.supply is not None and stick.supply < 0):
        raise ValueError(f"a stick {stick.length} long for {stick.cost} cannot be had")
    ends = [0, *(edge for flaw in stick.flaws for edge in flaw), stick.length]
    if ends != sorted(ends):
        raise ValueError("flaws must lie on the stick, apart and in order")
