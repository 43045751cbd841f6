"""From the cuts of a plan to operations: how each workpiece is held, and what is milled in between.

Rough stock is crosscut at marks and ripped along a guide or line; a face is flattened and the other planed
parallel before an edge is made straight, and only then does a piece run against a fence (magazine articles on
milling rough lumber without a jointer; common practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Blank, Piece2D, SawCut, StockLayout
from scantling.cutting.milling import thickness_lost, timber_of
from scantling.cutting.sequence.holding import (
    Way,
    crosscut_way,
    edge_way,
    flatten_way,
    rip_way,
    thickness_way,
    width_way,
)
from scantling.cutting.sequence.operations import Doing, Hold, Operation, Work
from scantling.piece.model import MaterialKind
from scantling.shop.model import Board, BoardForSale, Shop, Surface

_NEAR = 0.5  # mm: as thick or as wide as wanted
STRAIGHTENS = frozenset({Hold.GUIDE, Hold.CARRIER, Hold.FENCE})


@dataclass
class Bench:
    """One board, sheet or stick while it is taken apart."""

    layout: StockLayout
    blanks: dict[str, Blank]
    stock: Board | BoardForSale | None
    shop: Shop
    _works: dict[str, Work] = field(default_factory=dict)

    def operations(self) -> Iterator[Operation]:
        """Cuts and milling in the order that this one stock wants."""
        self._pieces = {piece.id: piece for piece in self.layout.pieces}
        root = self.layout.cuts[0].of if self.layout.cuts else self.layout.pieces[0].id
        self._works[root] = self._whole()
        milled: set[str] = set()
        for cut in self.layout.cuts:
            unit = self._unit(cut.of)
            if unit and unit not in milled:
                milled.add(unit)
                yield from self._mill(unit)
            if cut.of in self._works:  # an unsound plan may cut what is not there; the verifier says so
                yield self._saw(cut, planed=bool(unit))
        for piece in self.layout.pieces:
            if piece.use == "blank" and piece.id in self._works and not self._unit(piece.id):
                yield from self._mill(piece.id)

    def _unit(self, piece: str) -> str:
        """The gang a piece is cut from, or is; "" for others."""
        parent = {child: cut.of for cut in self.layout.cuts for child in cut.gives if child}
        while piece:
            if piece in self._pieces and self._pieces[piece].flattened is not None:
                return piece
            piece = parent.pop(piece, "")
        return ""

    def _whole(self) -> Work:
        lay = self.layout
        if lay.kind is not MaterialKind.SOLID or self.stock is None:
            return Work(lay.length, lay.width, lay.thickness, 2, straight=True)
        timber = timber_of(self.stock)
        even = thickness_lost(timber, lay.length, lay.width, 0.0) <= allow.STILL_FLAT
        dressed = timber.surface in (Surface.TWO_FACES, Surface.FOUR_SIDES)
        straight = timber.surface is Surface.FOUR_SIDES and timber.warp.crook <= allow.STILL_FLAT
        return Work(lay.length, lay.width, lay.thickness, 2 if even and dressed else 0, straight)

    def _saw(self, cut: SawCut, *, planed: bool) -> Operation:
        work = self._works[cut.of]
        saw = next((m for m in self.shop.machines if m.name == cut.machine), None)
        if cut.across:
            way = crosscut_way(saw, work, rough=not planed and self.layout.kind is MaterialKind.SOLID)
        else:
            way = rip_way(saw, work, cut.setting, self.shop)
        straight = work.straight or (not cut.across and way.hold in STRAIGHTENS)
        for piece in (self._pieces[gives] for gives in cut.gives if gives in self._pieces):
            # A gang is milled before it is cut apart: what came off its width stays off.
            wide = min(work.width, piece.width) if cut.across else piece.width
            self._works[piece.id] = replace(work, length=piece.length, width=wide, straight=straight)
        doing = Doing.CROSSCUT if cut.across else Doing.RIP
        setting = cut.setting if way.hold in (Hold.FENCE, Hold.STOP) else None
        return self._operation(doing, way, setting, cut.of, cut.gives, work, cut.number)

    def _mill(self, piece: str) -> Iterator[Operation]:
        """A blank or gang: face, other face, edge, other edge, as far as it wants them."""
        blank = self._first_blank(piece)
        if blank is None or self.layout.kind is not MaterialKind.SOLID:
            return
        work = self._works[piece]
        if work.flat < 2 or work.thickness - blank.thickness > _NEAR:
            if not work.flat:
                # An edge sawn before is not square to the new face.
                way = flatten_way(work, self.shop)
                yield self._milled(Doing.FLATTEN, way, None, piece, flat=1, straight=False)
            way = thickness_way(self._works[piece], blank.thickness, self.shop)
            yield self._milled(
                Doing.THICKNESS, way, blank.thickness, piece, flat=2, thickness=blank.thickness
            )
        if not self._works[piece].straight:
            yield self._milled(
                Doing.EDGE, edge_way(self._works[piece], self.shop), None, piece, straight=True
            )
        if self._works[piece].width - blank.width > _NEAR:
            way = width_way(self._works[piece], blank.width, self.shop)
            yield self._milled(Doing.WIDTH, way, blank.width, piece, width=blank.width)

    def _milled(
        self, doing: Doing, way: Way, setting: float | None, piece: str, **after: object
    ) -> Operation:
        work = self._works[piece]
        self._works[piece] = replace(work, **after)  # type: ignore[arg-type]
        return self._operation(doing, way, setting, piece, (piece,), work)

    def _operation(
        self,
        doing: Doing,
        way: Way,
        setting: float | None,
        takes: str,
        gives: tuple[str, ...],
        work: Work,
        number: int = 0,
    ) -> Operation:
        given = tuple(piece for piece in gives if piece)
        return Operation(
            self.layout.stock, doing, way.machine, way.hold, setting, takes, given, work, number, way.caution
        )

    def _first_blank(self, piece: str) -> Blank | None:
        """The blank a piece is, or the first one cut from it."""
        inside = (p.blank for p in self.layout.pieces if p.use == "blank" and _within(p, self._pieces[piece]))
        return next((self.blanks[name] for name in inside if name in self.blanks), None)


def _within(inner: Piece2D, outer: Piece2D) -> bool:
    hair = 1e-6
    along = outer.x - hair <= inner.x and inner.x + inner.length <= outer.x + outer.length + hair
    across = outer.y - hair <= inner.y and inner.y + inner.width <= outer.y + outer.width + hair
    return along and across
