"""Is the wood under a blank good enough: flat, thick, clear, and fit for the machines?"""

from __future__ import annotations

import math
from collections.abc import Iterator

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Blank, StockLayout
from scantling.cutting.verifying.replay import Area, Replayed
from scantling.cutting.verifying.surface import Face
from scantling.shop.model import Board, BoardFace, BoardForSale, MachineKind, Shop, Surface, Warp

_TOL = 0.06  # mm


def exact_range(bow: float, cup: float, twist: float) -> float:
    """Least thickness range over all planes of an evenly bent blank with these readings. [mm]

    The surface is z = bow u² ± cup v² + twist u v / 4 on -1..1. It is even in (u, v), and the range is convex
    in the tilt of the plane, so the best plane is level; extremes lie at the middle, the corners and where
    an edge turns. The worse of the two signs is given. Worked out here, apart from the planner's rule.
    """
    return max(_range(bow, sign * cup, twist / 4) for sign in (1.0, -1.0))


def _range(b: float, c: float, t: float) -> float:
    values = [0.0, b + c + t, b + c - t]
    values += [first - t * t / (4 * second) for first, second in ((b, c), (c, b)) if 2 * abs(second) > abs(t)]
    return max(values) - min(values)


def wood_complaints(
    layout: StockLayout, done: Replayed, blanks: dict[str, Blank], stock: Board | BoardForSale, shop: Shop
) -> Iterator[str]:
    """Everything wrong with the wood under the blanks of one board."""
    gangs = {p.id: p.flattened for p in layout.pieces if p.flattened is not None}
    told = dict(layout.flat)
    for piece in (p for p in layout.pieces if p.use == "blank"):
        blank = blanks.get(piece.blank)
        if blank is None or piece.id not in done.areas:
            continue
        milled = next((name for name in done.history[piece.id] if name in gangs), piece.id)
        unit = done.areas[milled]
        if milled != piece.id and abs((gangs[milled] or 0.0) - blank.thickness) > _TOL:
            yield f"{blank.id} is cut from a gang planed to another thickness"
        flat = _flat(stock, unit, shop)
        if flat < blank.thickness - _TOL:
            yield f"{blank.id} wants {blank.thickness:.2f} but only {flat:.2f} can be flattened there"
        if told.get(blank.id, 0.0) > flat + _TOL:
            yield f"{blank.id} is said to reach {told.get(blank.id, 0.0):.2f}, but {flat:.2f} is all there is"
        yield from _clear(blank, done, piece.id, stock)


def _flat(stock: Board | BoardForSale, unit: Area, shop: Shop) -> float:
    lost = _lost(stock, unit)
    dressed = stock.surface in (Surface.TWO_FACES, Surface.FOUR_SIDES)
    # The planner's rule overstates the loss, so what it calls flat enough is flat enough here too.
    as_bought = stock.thickness if dressed and lost <= allow.STILL_FLAT else 0.0
    if not _millable(unit.x1 - unit.x0, unit.y1 - unit.y0, stock.thickness, lost, shop):
        return as_bought
    off = {Surface.ROUGH: 2 * allow.ROUGH_FACE, Surface.ONE_FACE: allow.ROUGH_FACE + allow.SURFACED_FACE}
    return max(as_bought, stock.thickness - lost - off.get(stock.surface, 2 * allow.SURFACED_FACE))


def _lost(stock: Board | BoardForSale, unit: Area) -> float:
    if isinstance(stock, Board) and stock.stations:
        return Face(stock).least_range(unit)
    warp = _warp(stock)
    x, y = (unit.x1 - unit.x0) / stock.length, (unit.y1 - unit.y0) / stock.width
    return exact_range(warp.bow * x * x, warp.cup * y * y, warp.twist * x * y)


def _warp(stock: Board | BoardForSale) -> Warp:
    if isinstance(stock, Board):
        return stock.warp
    long, wide = stock.length / allow.USUAL_LENGTH, stock.width / allow.USUAL_WIDTH
    return Warp(
        allow.USUAL_BOW * long * long,
        allow.USUAL_CROOK * long * long,
        allow.USUAL_CUP * wide * wide,
        allow.USUAL_TWIST * long * wide,
    )


def _millable(length: float, width: float, thickness: float, lost: float, shop: Shop) -> bool:
    by_kind = {m.kind: m for m in reversed(shop.machines)}
    if MachineKind.HAND_PLANE in by_kind or MachineKind.ROUTER in by_kind:
        return True
    planer, jointer = by_kind.get(MachineKind.PLANER), by_kind.get(MachineKind.JOINTER)
    if planer is None or length < (planer.least_length or 0) - _TOL:
        return False
    if width > _or_inf(planer.most_width) + _TOL or thickness > _or_inf(planer.most_thickness):
        return False
    if lost <= allow.STILL_FLAT:
        return True
    if jointer and width <= _or_inf(jointer.most_width) and length >= (jointer.least_length or 0):
        return True
    high_enough = thickness + planer.sled_thickness <= _or_inf(planer.most_thickness)
    return planer.sled and high_enough and length <= _or_inf(planer.most_length) + _TOL


def _or_inf(limit: float | None) -> float:
    return math.inf if limit is None else limit


def _clear(blank: Blank, done: Replayed, piece: str, stock: Board | BoardForSale) -> Iterator[str]:
    area = done.areas[piece]
    ancestors = [n for n in (*done.history[piece], piece) if n in done.crosscut_only]
    segment = done.areas[ancestors[-1]]
    stray = _warp(stock).crook * ((segment.x1 - segment.x0) / stock.length) ** 2 / 2
    if area.y0 < stray - _TOL or area.y1 > stock.width - stray + _TOL:
        yield f"{blank.id} runs over the crooked edge"
    ends = stock.end_waste if isinstance(stock, Board) else allow.USUAL_END_WASTE
    if area.x0 < ends - _TOL or area.x1 > stock.length - ends + _TOL:
        yield f"{blank.id} lies in the end waste"
    marked = _marked_faces(area, stray, stock)
    if "bad" in marked:
        yield f"{blank.id} lies on a defect"
    elif 2 - len(marked) < blank.clear_faces:
        yield f"{blank.id} wants {blank.clear_faces} clear faces and has {2 - len(marked)}"


def _marked_faces(area: Area, stray: float, stock: Board | BoardForSale) -> set[str]:
    """Faces a sound defect marks under an area; with "bad" where the defect is not sound."""
    marked: set[str] = set()
    for defect in stock.defects if isinstance(stock, Board) else ():
        apart = (
            defect.to_end <= area.x0 + _TOL
            or defect.from_end >= area.x1 - _TOL
            or defect.to_edge + stray <= area.y0 + _TOL
            or defect.from_edge - stray >= area.y1 - _TOL
        )
        if apart:
            continue
        if defect.kind.lower() not in ("sound knot", "sapwood", "stain"):
            marked.add("bad")
        marked |= {"best", "other"} if defect.face is BoardFace.BOTH else {defect.face.value}
    return marked
