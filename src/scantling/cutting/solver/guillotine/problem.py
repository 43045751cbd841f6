"""Rectangles wanted and the sheets to cut them from by cuts from edge to edge, in whole units."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SheetKind:
    """Equal sheets, their edges already trimmed: `supply` of them (None: as many as wanted)."""

    length: int
    width: int
    supply: int | None = None


@dataclass(frozen=True, slots=True)
class Rectangle:
    """`demand` pieces alike; `turns`: they may lie across as well."""

    length: int
    width: int
    demand: int = 1
    turns: bool = False


@dataclass(frozen=True)
class SheetProblem:
    """Cuts may follow each other in any direction. Raises ValueError for what makes no sense."""

    sheet: SheetKind
    wanted: tuple[Rectangle, ...]
    kerf: int = 0

    def __post_init__(self) -> None:
        sheet = self.sheet
        if min(sheet.length, sheet.width) <= 0 or self.kerf < 0:
            raise ValueError(f"nothing can be cut from {sheet} with a kerf of {self.kerf}")
        if sheet.supply is not None and sheet.supply < 0:
            raise ValueError("there cannot be fewer than no sheets")
        for want in self.wanted:
            if min(want.length, want.width) <= 0 or want.demand < 0:
                raise ValueError(f"{want} cannot be asked for")

    @property
    def room(self) -> tuple[int, int]:
        """What a sheet takes when every piece is counted a kerf longer and wider."""
        return self.sheet.length + self.kerf, self.sheet.width + self.kerf

    def takes(self, number: int) -> tuple[int, int]:
        """What a piece takes of that room."""
        want = self.wanted[number]
        return want.length + self.kerf, want.width + self.kerf

    @property
    def too_large(self) -> frozenset[int]:
        """Numbers of rectangles that no sheet can give."""
        room = self.room

        def fits(number: int) -> bool:
            along, across = self.takes(number)
            turned = self.wanted[number].turns and across <= room[0] and along <= room[1]
            return turned or (along <= room[0] and across <= room[1])

        return frozenset(number for number in range(len(self.wanted)) if not fits(number))
