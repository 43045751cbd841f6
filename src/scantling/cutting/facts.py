"""One board of a plan in numbers, for drawing and for telling what its warp costs."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.cutting.cut_plan import Areas, Blank, CutPlan, Piece2D, SawCut, StockLayout
from scantling.cutting.layout import areas_of
from scantling.piece.model import MaterialKind, PartName


@dataclass(frozen=True, slots=True)
class CutLine:
    """Where a cut runs on the stock: from (x0, y0) to (x1, y1), at the near side of its kerf. [mm]"""

    cut: SawCut
    x0: float
    y0: float
    x1: float
    y1: float


@dataclass(frozen=True, slots=True)
class BlankFacts:
    """A blank on its board. `flat`: thickness it can be milled to there; `lost` to warp and clean-up;
    `spare`: what is left over the thickness it needs. None on sheets and sticks, which are not milled. [mm]
    """

    blank: Blank
    part: PartName
    piece: Piece2D
    turned: bool
    flat: float | None
    lost: float | None
    spare: float | None


@dataclass(frozen=True, slots=True)
class LayoutFacts:
    """`used`: share of the wood cut into, offcuts left out, that becomes blanks (0..1).

    `offcuts` largest first; `gangs`: pieces planed before they are cut into short blanks.
    """

    lines: tuple[CutLine, ...]
    blanks: tuple[BlankFacts, ...]
    offcuts: tuple[Piece2D, ...]
    gangs: tuple[Piece2D, ...]
    areas: Areas
    used: float


def layout_facts(plan: CutPlan, layout: StockLayout) -> LayoutFacts:
    """All there is to draw and tell of one board, sheet or stick."""
    pieces = {piece.id: piece for piece in layout.pieces}
    blanks = {blank.id: blank for blank in plan.blanks}
    flat = dict(layout.flat)
    areas = areas_of((layout,))
    offcuts = [piece for piece in layout.pieces if piece.use == "offcut"]
    return LayoutFacts(
        lines=tuple(_line(cut, pieces[cut.of]) for cut in layout.cuts),
        blanks=tuple(
            _blank_facts(layout, piece, blanks[piece.blank], flat.get(piece.blank))
            for piece in layout.pieces
            if piece.use == "blank"
        ),
        offcuts=tuple(sorted(offcuts, key=lambda p: -p.length * p.width)),
        gangs=tuple(piece for piece in layout.pieces if piece.flattened is not None),
        areas=areas,
        used=areas.blanks / (areas.stock - areas.offcuts) if areas.stock > areas.offcuts else 0.0,
    )


def milled_blanks(plan: CutPlan) -> tuple[BlankFacts, ...]:
    """The blanks that are milled flat, those of boards, in the order of the plan."""
    boards = (layout for layout in plan.layouts if layout.kind is MaterialKind.SOLID)
    found = (facts for layout in boards for facts in layout_facts(plan, layout).blanks)
    return tuple(facts for facts in found if facts.spare is not None)


def tightest(plan: CutPlan) -> BlankFacts | None:
    """The blank with the least thickness to spare over what it needs; None where nothing is milled."""
    return min(milled_blanks(plan), key=lambda facts: (facts.spare, facts.blank.id), default=None)


def _line(cut: SawCut, piece: Piece2D) -> CutLine:
    if cut.across:
        return CutLine(cut, cut.at, piece.y, cut.at, piece.y + piece.width)
    return CutLine(cut, piece.x, cut.at, piece.x + piece.length, cut.at)


def _blank_facts(layout: StockLayout, piece: Piece2D, blank: Blank, flat: float | None) -> BlankFacts:
    along = piece.length >= blank.rough_length - 0.1 and piece.width >= blank.rough_width - 0.1
    lost = None if flat is None else layout.thickness - flat
    spare = None if flat is None else flat - blank.thickness
    return BlankFacts(blank, blank.part, piece, not along, flat, lost, spare)
