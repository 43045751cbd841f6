"""Rectangles wanted and the sheets to cut them from by cuts from edge to edge, in whole units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple


class Flaw(NamedTuple):
    """A rectangle of a sheet that no piece wanted may lie over; a cut may pass through it."""

    x0: int
    x1: int
    y0: int
    y1: int


@dataclass(frozen=True, slots=True)
class SheetKind:
    """Equal sheets: `supply` of them (None: as many as wanted), each costing `cost`, a whole number.

    `trim`: unusable at the start and end of the length, then of the width; taken off before anything else
    is cut, and not counted as a stage. `flaws`: measured from the untrimmed corner.
    """

    length: int
    width: int
    cost: int = 1
    supply: int | None = None
    trim: tuple[int, int, int, int] = (0, 0, 0, 0)
    flaws: tuple[Flaw, ...] = ()

    def corner(self, kerf: int) -> tuple[int, int]:
        """Where what is left of the trimmed sheet begins: a trim is at least as wide as its cut."""
        x, y = self.trim[0], self.trim[2]
        return (max(x, kerf) if x else 0), (max(y, kerf) if y else 0)

    def size(self, kerf: int) -> tuple[int, int]:
        """Length and width once trimmed."""
        x, y = self.corner(kerf)
        return self.length - self.trim[1] - x, self.width - self.trim[3] - y

    def room(self, kerf: int) -> tuple[int, int]:
        """What a sheet takes when every piece is counted a kerf longer and wider."""
        long, wide = self.size(kerf)
        return long + kerf, wide + kerf


@dataclass(frozen=True, slots=True)
class Rectangle:
    """`demand` pieces alike; `turns`: they may lie across as well.

    `kinds`: numbers of the kinds of sheet they may come from (None: any).
    """

    length: int
    width: int
    demand: int = 1
    turns: bool = False
    kinds: tuple[int, ...] | None = None


@dataclass(frozen=True)
class SheetProblem:
    """Least cost of sheets; then, with `keep`, the best leftovers: one large worth more than many small.

    `stages`: how often the direction of cutting may change, the first direction counted (None: as often as
    wanted). `trimming`: one stage more may free a piece from waste at its side. `first`: "across" the length,
    "along" it, or "" for either, sheet by sheet. `keep`: least length and width, either way round, of a
    leftover worth keeping. Raises ValueError for what makes no sense.
    """

    sheets: tuple[SheetKind, ...]
    wanted: tuple[Rectangle, ...]
    kerf: int = 0
    stages: int | None = None
    trimming: bool = True
    first: str = ""
    keep: tuple[int, int] | None = None

    def __post_init__(self) -> None:
        if self.kerf < 0 or (self.stages is not None and self.stages < 1):
            raise ValueError(f"nothing can be cut with a kerf of {self.kerf} in {self.stages} stages")
        if self.first not in ("", "across", "along"):
            raise ValueError(f"the first cuts run across or along, not {self.first}")
        for sheet in self.sheets:
            _check_sheet(sheet, self.kerf)
        for want in self.wanted:
            known = set(want.kinds or ()) <= set(range(len(self.sheets)))
            if min(want.length, want.width) <= 0 or want.demand < 0 or not known:
                raise ValueError(f"{want} cannot be asked for")

    @cached_property
    def rooms(self) -> tuple[tuple[int, int], ...]:
        """Of each kind of sheet."""
        return tuple(sheet.room(self.kerf) for sheet in self.sheets)

    def takes(self, number: int) -> tuple[int, int]:
        """What a piece takes of that room."""
        want = self.wanted[number]
        return want.length + self.kerf, want.width + self.kerf

    def lies_on(self, number: int, kind: int) -> bool:
        """Whether a piece could be cut from such a sheet, had it no flaw and any number of stages."""
        want, room, (along, across) = self.wanted[number], self.rooms[kind], self.takes(number)
        if want.kinds is not None and kind not in want.kinds:
            return False
        turned = want.turns and across <= room[0] and along <= room[1]
        return turned or (along <= room[0] and across <= room[1])

    @cached_property
    def too_large(self) -> frozenset[int]:
        """Numbers of rectangles that no sheet can give."""
        kinds = [kind for kind, sheet in enumerate(self.sheets) if sheet.supply != 0]
        numbers = range(len(self.wanted))
        return frozenset(n for n in numbers if not any(self.lies_on(n, kind) for kind in kinds))


def _check_sheet(sheet: SheetKind, kerf: int) -> None:
    if min(sheet.size(kerf)) <= 0 or min(sheet.trim) < 0:
        raise ValueError(f"nothing can be cut from {sheet} with a kerf of {kerf}")
    if (sheet.supply is not None and sheet.supply < 0) or sheet.cost < 0:
        raise ValueError("there cannot be fewer than no sheets, nor can they cost less than nothing")
    for flaw in sheet.flaws:
        if flaw.x0 >= flaw.x1 or flaw.y0 >= flaw.y1:
            raise ValueError(f"{flaw} has no size")
