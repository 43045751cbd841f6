"""Cut a plan's stock again, cut by cut, and see whether the pieces it claims come out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from scantling.cutting.cut_plan import Piece2D, SawCut, StockLayout
from scantling.shop.model import Shop

_TOL = 0.03  # mm
_DUST = 0.06


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle x0..x1 by y0..y1. [mm]"""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def size(self) -> float:
        return (self.x1 - self.x0) * (self.y1 - self.y0)

    @property
    def is_dust(self) -> bool:
        return self.x1 - self.x0 <= _DUST or self.y1 - self.y0 <= _DUST


@dataclass
class Replayed:
    """What is left when all cuts are made: `leaves` by id; `history`: piece → the cut pieces it came from.

    `kerf`: area turned to dust. `crosscut_only`: pieces no rip has touched, by id.
    """

    leaves: dict[str, Area]
    areas: dict[str, Area]
    history: dict[str, tuple[str, ...]]
    crosscut_only: set[str]
    kerf: float = 0.0
    complaints: list[str] = field(default_factory=list)


def replay(layout: StockLayout, shop: Shop) -> Replayed:
    """Make every cut of a layout in its order."""
    root = layout.cuts[0].of if layout.cuts else (layout.pieces[0].id if layout.pieces else layout.stock)
    whole = Area(0.0, 0.0, layout.length, layout.width)
    done = Replayed({root: whole}, {root: whole}, {root: ()}, {root})
    if [cut.number for cut in layout.cuts] != list(range(1, len(layout.cuts) + 1)):
        done.complaints.append(f"{layout.stock}: cuts are not numbered one after another")
    for cut in layout.cuts:
        done.complaints += [f"{layout.stock}, cut {cut.number}: {c}" for c in _make(cut, done, shop)]
    done.complaints += [f"{layout.stock}: {c}" for c in _claims(layout, done)]
    return done


def _make(cut: SawCut, done: Replayed, shop: Shop) -> Iterator[str]:
    piece = done.leaves.pop(cut.of, None)
    if piece is None:
        yield f"there is no piece {cut.of} to cut"
        return
    low, high = (piece.x0, piece.x1) if cut.across else (piece.y0, piece.y1)
    if not low - _TOL <= cut.at <= high + _TOL:
        yield f"it is made at {cut.at:.2f}, outside the piece"
        return
    yield from _saw(cut, cut.at - low <= _DUST or high - cut.at <= _DUST, shop)
    if abs(cut.setting - (cut.at - low)) > _TOL:
        yield "its setting is not where it is made"
    beyond = min(cut.at + cut.kerf, high)
    if cut.across:
        halves = (Area(low, piece.y0, cut.at, piece.y1), Area(beyond, piece.y0, high, piece.y1))
        done.kerf += (beyond - cut.at) * (piece.y1 - piece.y0)
    else:
        halves = (Area(piece.x0, low, piece.x1, cut.at), Area(piece.x0, beyond, piece.x1, high))
        done.kerf += (beyond - cut.at) * (piece.x1 - piece.x0)
    for name, half in zip(cut.gives, halves, strict=True):
        yield from _came_out(name, half, cut, done)


def _came_out(name: str, half: Area, cut: SawCut, done: Replayed) -> Iterator[str]:
    if name in done.areas:
        yield f"{name} was already cut"
    elif name:
        done.leaves[name] = done.areas[name] = half
        done.history[name] = (*done.history[cut.of], cut.of)
        if cut.across and cut.of in done.crosscut_only:
            done.crosscut_only.add(name)
    elif not half.is_dust:
        yield "something that falls off has no name"


def _saw(cut: SawCut, at_edge: bool, shop: Shop) -> Iterator[str]:
    if not cut.machine:
        if cut.kerf <= 0 and not at_edge:
            yield "no saw and no kerf"
        return
    saw = next((m for m in shop.machines if m.name == cut.machine), None)
    if saw is None:
        yield f"the shop has no {cut.machine}"
    elif saw.kerf is not None and cut.kerf < saw.kerf - _TOL and not at_edge:
        yield f"a kerf of {cut.kerf:.2f} is less than the {cut.machine} cuts"


def _claims(layout: StockLayout, done: Replayed) -> Iterator[str]:
    claimed = {piece.id: piece for piece in layout.pieces}
    if len(claimed) != len(layout.pieces):
        yield "two pieces have one name"
    for name, area in done.areas.items():
        piece = claimed.get(name)
        if piece is None:
            yield f"piece {name} is not in the plan"
        elif not _same(piece, area):
            yield f"piece {name} is not the size that comes off the saw"
        elif (name in done.leaves) != (piece.use in ("blank", "offcut", "waste")):
            yield f"piece {name} is called {piece.use}"
    yield from (f"piece {name} never comes off the saw" for name in claimed if name not in done.areas)


def _same(piece: Piece2D, area: Area) -> bool:
    pairs = (
        (piece.x, area.x0),
        (piece.y, area.y0),
        (piece.x + piece.length, area.x1),
        (piece.y + piece.width, area.y1),
    )
    return all(abs(a - b) <= _TOL for a, b in pairs)
