"""From filled bins to boards with numbered cuts."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.cutting.cut_plan import Areas, Blank, Piece2D, SawCut, StockLayout
from scantling.cutting.cutting_order import Cutter, Cutting
from scantling.cutting.milling import Means, means_of
from scantling.cutting.saws import Saw, handling
from scantling.cutting.solver.bin import Bin, Segment, Spot, Strip
from scantling.cutting.solver.problem import SCALE
from scantling.cutting.supply import Source
from scantling.cutting.wants import Group, Want, reach
from scantling.piece.model import MaterialKind
from scantling.shop.model import Shop

Names = Mapping[tuple[int, int, int], Blank]  # panel, x, y → its stave (within one bin)


def stock_layout(group: Group, bin_: Bin, copy: int, staves: Names, shop: Shop) -> StockLayout:
    """One bin as a board: pieces, numbered cuts, and the flat thickness each blank can reach."""
    source = group.sources[bin_.stock]
    name = source.name_of(copy)
    cutting = _cut_apart(group, bin_, name, staves)
    return StockLayout(
        stock=name,
        kind=_kind(group),
        species=source.species,
        length=source.length,
        width=source.width,
        thickness=source.thickness,
        bought=source.bought,
        price=source.price,
        placed=cutting.placed,
        pieces=cutting.pieces,
        cuts=cutting.cuts,
        flat=_flat(source, cutting, means_of(shop.machines)),
        notes=(*_notes(source, cutting), *handling(cutting.cuts, cutting.pieces, shop)),
    )


def _kind(group: Group) -> MaterialKind:
    if group.wants:
        return next(iter(group.wants.values())).blanks[0].kind
    return next(iter(group.panels.values()))[0].kind


def _cut_apart(group: Group, bin_: Bin, name: str, staves: Names) -> Cutting:
    """Stage by stage: every crosscut of the board, then every rip, then the strips, gangs last."""
    source = group.sources[bin_.stock]
    bin_length, bin_width = (
        (source.width, source.length) if source.bin.turned else (source.length, source.width)
    )
    keep = (source.bin.keep[0] / SCALE, source.bin.keep[1] / SCALE)
    cutter = Cutter(name, bin_length, bin_width, source.bin.turned, keep)
    spans = [(g.x0 / SCALE, g.x1 / SCALE) for g in bin_.segments]
    segments = cutter.slices(cutter.start(), True, spans, source.across)
    strips: list[tuple[str, Strip]] = []
    for piece, segment in zip(segments, bin_.segments, strict=True):
        strips += _ripped(cutter, piece, segment, source)
    spots: list[tuple[str, Spot]] = []
    for piece, strip in strips:
        runs = [(p.x / SCALE, (p.x + p.length) / SCALE) for p in strip.spots]
        spots += zip(cutter.slices(piece, True, runs, source.across), strip.spots, strict=True)
    trimmed = [
        (cutter.slices(piece, False, [(p.y / SCALE, (p.y + p.width) / SCALE)], source.along)[0], p)
        for piece, p in spots
    ]
    for piece, spot in trimmed:
        _finish(cutter, piece, spot, group, staves, source.final)
    return cutter.done()


def _ripped(cutter: Cutter, piece: str, segment: Segment, source: Source) -> list[tuple[str, Strip]]:
    spans = [(s.y0 / SCALE, s.y1 / SCALE) for s in segment.strips]
    return list(
        zip(cutter.slices(piece, False, spans, source.along, source.first_edge), segment.strips, strict=True)
    )


def _finish(cutter: Cutter, piece: str, spot: Spot, group: Group, staves: Names, saw: Saw) -> None:
    if spot.want in group.panels:
        cutter.finish(piece, staves[(spot.want, spot.x, spot.y)].id)
        return
    want = group.wants[spot.want]
    if not want.gang:
        cutter.finish(piece, want.blanks[0].id)
        return
    cutter.flatten(piece, want.blanks[0].thickness)
    for name, blank in zip(
        cutter.slices(piece, True, _gang_runs(spot, want, saw), saw), want.blanks, strict=True
    ):
        cutter.finish(name, blank.id)


def _gang_runs(spot: Spot, want: Want, saw: Saw) -> list[tuple[float, float]]:
    """Where the blanks of a gang lie: past the sniped end, one after another."""
    x = spot.x / SCALE + want.waste + want.kerf
    runs = []
    for blank in want.blanks:
        runs.append((x, x + blank.rough_length))
        x += blank.rough_length + saw.kerf
    return runs


def _flat(source: Source, cutting: Cutting, means: Means) -> tuple[tuple[str, float], ...]:
    if source.timber is None:
        return ()
    gangs = {
        name: piece
        for piece in cutting.pieces
        if piece.flattened is not None
        for name in _within(piece, cutting)
    }
    sizes = {p.blank: gangs.get(p.blank, p) for p in cutting.placed}
    return tuple((blank, reach(source, p.length, p.width, means, p.x)) for blank, p in sizes.items())


def _within(gang: Piece2D, cutting: Cutting) -> list[str]:
    return [
        p.blank
        for p in cutting.placed
        if gang.x - 1e-6 <= p.x
        and p.x + p.length <= gang.x + gang.length + 1e-6
        and gang.y - 1e-6 <= p.y
        and p.y + p.width <= gang.y + gang.width + 1e-6
    ]


def _notes(source: Source, cutting: Cutting) -> tuple[str, ...]:
    used = {cut.machine for cut in cutting.cuts}
    saws = dict.fromkeys((source.across, source.first_edge, source.along, source.final))
    notes = [
        f"{saw.name}: {saw.note}" if saw.name else saw.note for saw in saws if saw.note and saw.name in used
    ]
    if any(p.flattened is not None for p in cutting.pieces):
        notes.append("short blanks stay together until they are planed")
    return tuple(dict.fromkeys(notes))


def areas_of(layouts: tuple[StockLayout, ...]) -> Areas:
    """Where every square millimetre went."""
    stock = sum(l.length * l.width for l in layouts)
    used = {
        use: sum(p.length * p.width for l in layouts for p in l.pieces if p.use == use)
        for use in ("blank", "offcut")
    }
    kerf = sum(_kerf_area(cut, l) for l in layouts for cut in l.cuts)
    return Areas(stock, used["blank"], kerf, used["offcut"], stock - used["blank"] - used["offcut"] - kerf)


def _kerf_area(cut: SawCut, layout: StockLayout) -> float:
    piece = next(p for p in layout.pieces if p.id == cut.of)
    if cut.across:
        return min(cut.kerf, piece.x + piece.length - cut.at) * piece.width
    return min(cut.kerf, piece.y + piece.width - cut.at) * piece.length
