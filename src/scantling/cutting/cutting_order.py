"""The cuts that take a bin apart, in the order a maker makes them, and every piece on the way.

Edge to edge cuts only: crosscuts of the board, rips of its segments, crosscuts of the strips, then trims.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from scantling.cutting.cut_plan import Piece2D, Placed, SawCut
from scantling.cutting.saws import Saw

_DUST = 0.05  # mm: less than this left over is nothing
Rect = tuple[float, float, float, float]  # x0, y0, x1, y1


@dataclass(frozen=True)
class Cutting:
    """Pieces, cuts and blanks of one bin."""

    pieces: tuple[Piece2D, ...]
    cuts: tuple[SawCut, ...]
    placed: tuple[Placed, ...]


@dataclass
class Cutter:
    """Takes one piece of stock apart. `turned`: what is called across here is along on the stock."""

    name: str
    length: float
    width: float
    turned: bool
    keep: tuple[float, float]
    _rects: dict[str, Rect] = field(default_factory=dict)
    _uses: dict[str, tuple[str, str, float | None]] = field(default_factory=dict)
    _cuts: list[tuple[str, bool, float, Saw, tuple[str, str], float]] = field(default_factory=list)

    def start(self) -> str:
        return self._new((0.0, 0.0, self.length, self.width), "stock")

    def slices(
        self, of: str, across: bool, spans: Sequence[tuple[float, float]], saw: Saw, first: Saw | None = None
    ) -> list[str]:
        """Cut a piece into the spans wanted of it (along x if `across`, else y); the rest falls off.

        `first`: the saw for the very first cut, where the piece has no straight edge yet.
        """
        axis = 0 if across else 1
        names: list[str] = []
        following = [low for low, _ in spans[1:]] + [math.inf]
        for (low, high), beyond in zip(spans, following, strict=True):
            start = self._rects[of][axis]
            if low - start >= saw.kerf - _DUST:
                used = first if first is not None and not names else saw
                of = self._cut(of, across, max(low - used.kerf, start), used, until=low)
            end = high if beyond - high >= 2 * saw.kerf - _DUST else beyond - saw.kerf
            if self._rects[of][axis + 2] - end > _DUST:
                low_piece, of = self._split(of, across, end, saw)
                names.append(low_piece)
            else:
                names.append(of)
                of = ""
        if of:
            self._leave(of)
        return names

    def flatten(self, piece: str, thickness: float) -> None:
        """Mark a piece as planed to a thickness before it is cut further."""
        use, blank, _ = self._uses[piece]
        self._uses[piece] = (use, blank, thickness)

    def finish(self, piece: str, blank: str) -> None:
        """Mark a piece as a blank."""
        self._uses[piece] = ("blank", blank, self._uses[piece][2])

    def done(self) -> Cutting:
        pieces = tuple(self._piece(name) for name in self._rects)
        placed = tuple(Placed(p.blank, p.x, p.y, p.length, p.width) for p in pieces if p.use == "blank")
        return Cutting(pieces, tuple(self._saw_cuts()), placed)

    def _new(self, rect: Rect, use: str = "part way") -> str:
        if rect[2] - rect[0] <= _DUST or rect[3] - rect[1] <= _DUST:
            return ""
        name = f"{self.name}/{len(self._rects)}"
        self._rects[name] = rect
        self._uses[name] = (use, "", None)
        return name

    def _split(self, of: str, across: bool, at: float, saw: Saw) -> tuple[str, str]:
        """Cut at `at`, the kerf beyond it; names of the piece before and the piece after."""
        low, high = self._halves(of, across, at, at + saw.kerf)
        before, after = self._new(low), self._new(high)
        self._note(of, across, at, saw, (before, after))
        return before, after

    def _cut(self, of: str, across: bool, at: float, saw: Saw, *, until: float) -> str:
        """Cut something off the near end, so that what stays begins at `until`."""
        low, high = self._halves(of, across, at, until)
        before, after = self._new(low), self._new(high)
        self._note(of, across, at, Saw(saw.name, until - at, saw.note), (before, after))
        if before:
            self._leave(before)
        return after

    def _halves(self, of: str, across: bool, at: float, beyond: float) -> tuple[Rect, Rect]:
        x0, y0, x1, y1 = self._rects[of]
        if across:
            return (x0, y0, at, y1), (min(beyond, x1), y0, x1, y1)
        return (x0, y0, x1, at), (x0, min(beyond, y1), x1, y1)

    def _note(self, of: str, across: bool, at: float, saw: Saw, gives: tuple[str, str]) -> None:
        start = self._rects[of][0 if across else 1]
        self._cuts.append((of, across, at, saw, gives, at - start))

    def _leave(self, piece: str) -> None:
        x0, y0, x1, y1 = self._rects[piece]
        worth = x1 - x0 >= self.keep[0] and y1 - y0 >= self.keep[1]
        self._uses[piece] = ("offcut" if worth else "waste", "", None)

    def _piece(self, name: str) -> Piece2D:
        x0, y0, x1, y1 = self._rects[name]
        use, blank, flattened = self._uses[name]
        if self.turned:
            x0, y0, x1, y1 = y0, x0, y1, x1
        return Piece2D(name, x0, y0, x1 - x0, y1 - y0, use, blank, flattened)

    def _saw_cuts(self) -> Iterable[SawCut]:
        for number, (of, across, at, saw, gives, setting) in enumerate(self._cuts, start=1):
            yield SawCut(number, of, across != self.turned, at, saw.kerf, gives, saw.name, setting)
