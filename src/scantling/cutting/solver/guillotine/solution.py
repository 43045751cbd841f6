"""Sheets as trees of cuts; every fact of them is worked out afresh."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from scantling.cutting.solver.guillotine.problem import SheetProblem

NOTHING = -1


@dataclass(frozen=True, slots=True)
class Piece:
    """A rectangle that exists at some moment: cut in two, a piece wanted, or left over.

    `across`: the cut runs across the length, at `at`; the kerf lies beyond it. `parts`: the pieces below and
    beyond it; of what is no wider than the kerf nothing is left. `wanted`: the number of the rectangle it is,
    `turned` if it lies across.
    """

    x: int
    y: int
    length: int
    width: int
    wanted: int = NOTHING
    turned: bool = False
    across: bool = False
    at: int = 0
    parts: tuple[Piece, ...] = ()

    def all(self) -> Iterator[Piece]:
        """Itself and all that is cut from it, in the order of cutting."""
        todo = [self]
        while todo:
            piece = todo.pop()
            todo += reversed(piece.parts)
            yield piece

    def leaves(self) -> Iterator[Piece]:
        """Pieces that are cut no further."""
        return (piece for piece in self.all() if not piece.parts)


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet of kind number `kind`; `whole`: what it is once trimmed, in places of the untrimmed sheet."""

    kind: int
    whole: Piece


@dataclass(frozen=True)
class SheetAnswer:
    """`bound`: no sheets that cost less can give all that is wanted; 0 where something is unmet.

    `unmet`: (number of the rectangle, how many). `steps`: how often something was taken apart.
    """

    problem: SheetProblem
    sheets: tuple[CutSheet, ...]
    bound: int
    unmet: tuple[tuple[int, int], ...] = ()
    steps: int = 0

    @property
    def value(self) -> int:
        """What the sheets cost that are cut into."""
        return sum(self.problem.sheets[sheet.kind].cost for sheet in self.sheets)

    @property
    def proven(self) -> bool:
        """Whether it cannot be had for less."""
        return not self.unmet and self.value <= self.bound

    @cached_property
    def leftovers(self) -> tuple[Piece, ...]:
        """Pieces worth keeping, largest first; none where the problem does not say what is."""
        keep = self.problem.keep
        if keep is None:
            return ()
        free = (piece for sheet in self.sheets for piece in sheet.whole.leaves() if piece.wanted == NOTHING)
        kept = [
            p for p in free if max(p.length, p.width) >= max(keep) and min(p.length, p.width) >= min(keep)
        ]
        return tuple(sorted(kept, key=lambda piece: -piece.length * piece.width))

    @cached_property
    def settings(self) -> frozenset[tuple[bool, int]]:
        """Distinct settings of fence or stop: whether across, and the distance from the edge cut from."""
        cut = (piece for sheet in self.sheets for piece in sheet.whole.all() if piece.parts)
        return frozenset((p.across, p.at - (p.x if p.across else p.y)) for p in cut)

    @cached_property
    def turns(self) -> int:
        """How many pieces are cut the other way than what they were cut from."""
        return sum(
            bool(part.parts) and part.across != piece.across
            for sheet in self.sheets
            for piece in sheet.whole.all()
            for part in piece.parts
        )
