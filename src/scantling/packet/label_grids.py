"""Sheets of labels as plain grids in millimetres: how many across and down, how large, how far apart."""

from __future__ import annotations

from dataclasses import dataclass

SMALLEST = (38.0, 20.0)  # mm: a smaller label holds no name and size that can be read


@dataclass(frozen=True, slots=True)
class Grid:
    """Labels on one sheet of paper `sheet` wide and high. `first`: corner of the first label. [mm]

    `gap`: between neighbours, across and down. `lines`: plain paper, so cut lines are drawn.
    """

    sheet: tuple[float, float]
    across: int
    down: int
    label: tuple[float, float]
    first: tuple[float, float]
    gap: tuple[float, float] = (0.0, 0.0)
    lines: bool = False

    @property
    def count(self) -> int:
        """Labels on a sheet."""
        return self.across * self.down

    @property
    def size(self) -> str:
        """Of one label: "63.5 × 38.1 mm"."""
        return f"{self.label[0]:g} × {self.label[1]:g} mm"

    def corner(self, index: int) -> tuple[float, float]:
        """Upper left of a label, counted from 0 along each row from the top. [mm]"""
        row, column = divmod(index % self.count, self.across)
        left = self.first[0] + column * (self.label[0] + self.gap[0])
        return left, self.first[1] + row * (self.label[1] + self.gap[1])

    def trouble(self) -> str:
        """Why nothing can be printed on it, for a maker; empty if it can."""
        if self.across < 1 or self.down < 1:
            return "a sheet has at least one label across and one down"
        if self.label[0] < SMALLEST[0] or self.label[1] < SMALLEST[1]:
            return f"a label must be at least {SMALLEST[0]:g} mm wide and {SMALLEST[1]:g} mm high"
        left, top = self.corner(self.count - 1)
        if min(*self.first, *self.gap) < 0 or left + self.label[0] > self.sheet[0] + 0.1:
            return f"{self.across} labels of that width do not fit across {self.sheet[0]:g} mm"
        if top + self.label[1] > self.sheet[1] + 0.1:
            return f"{self.down} labels of that height do not fit down {self.sheet[1]:g} mm"
        return ""


LETTER = (215.9, 279.4)
A4 = (210.0, 297.0)

# Usual sheets of sticky labels, from memory: measure yours before you print.
GRIDS = {
    "letter plain": Grid(LETTER, 2, 5, (95.0, 50.0), (12.95, 14.7), lines=True),
    "letter 2 by 5": Grid(LETTER, 2, 5, (101.6, 50.8), (4.0, 12.7), (4.7, 0.0)),
    "letter 3 by 10": Grid(LETTER, 3, 10, (66.7, 25.4), (4.8, 12.7), (3.1, 0.0)),
    "a4 plain": Grid(A4, 2, 5, (93.0, 54.0), (12.0, 13.5), lines=True),
    "a4 2 by 7": Grid(A4, 2, 7, (99.1, 38.1), (4.65, 15.15), (2.5, 0.0)),
    "a4 3 by 7": Grid(A4, 3, 7, (63.5, 38.1), (7.25, 15.15), (2.5, 0.0)),
    "a4 3 by 8": Grid(A4, 3, 8, (70.0, 36.0), (0.0, 4.5)),
}
