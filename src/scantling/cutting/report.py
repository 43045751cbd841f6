"""Why a blank cannot be had, in a maker's words, and the best that can be reached."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Blank, Need, Role, StockLayout, Unmet
from scantling.cutting.milling import Means, clean_up, flattest_at, means_of, why_not
from scantling.cutting.solver import SCALE, Panel
from scantling.cutting.supply import Source
from scantling.cutting.wants import blank_of, can_give, reach
from scantling.piece.model import MaterialKind
from scantling.quantity import Style, format_length
from scantling.shop.model import Board, Shop
from scantling.wood import is_species_name, species_named

_HANGS = 1.0  # mm to spare, of what three readings can miss; common practice, no source
_WARPED = 0.2  # mm: less is flat
_STATIONS_APART = 300.0  # mm
_STEPS = 40  # sizes tried between none and the whole; down to half of it, less is another part


def unmet(blank: Blank, sources: tuple[Source, ...], shop: Shop, *, barred: bool = False) -> Unmet:
    """The reason nothing gives this blank. `barred`: it found no place even with all stock to itself."""
    style = Style(shop.unit, shop.fraction)
    size = f"{_mm(blank.rough_length, style)} x {_mm(blank.rough_width, style)}"
    if not sources:
        return Unmet(blank, _nothing(blank), "")
    means = means_of(shop.machines)
    if any(can_give(source, blank, means) for source in sources):
        reason = f"the stock that could give it ({size}) is used up by other parts"
        if barred:
            reason = f"no stock flat enough is clear over {size}: knots, checks or wane are in the way"
        return Unmet(blank, reason, "")
    if blank.kind is not MaterialKind.SOLID:
        return Unmet(
            blank,
            f"no {sources[0].species} on the rack or for sale is large enough for {size}",
            _largest(sources, style),
        )
    return _unmet_solid(blank, sources, shop, style, size)


def _unmet_solid(blank: Blank, sources: tuple[Source, ...], shop: Shop, style: Style, size: str) -> Unmet:
    means = means_of(shop.machines)
    big = [s for s in sources if s.length >= blank.rough_length and s.width >= blank.rough_width]
    if not big:
        return Unmet(blank, f"no board of {_said(blank.species)} is {size}", _largest(sources, style))
    best = max(big, key=lambda s: reach(s, blank.rough_length, blank.rough_width, means))
    start = _start(best, blank)
    flat = reach(best, blank.rough_length, blank.rough_width, means, start)
    if flat < blank.thickness and best.timber is not None:
        machine = why_not(best.timber, blank.rough_length, blank.rough_width, shop)
        if machine:
            return Unmet(
                blank, f"{size}: {machine}", f"{best.id} measures {_mm(best.thickness, style)} as it is"
            )
    reason = f"no board gives a {_mm(blank.thickness, style)} blank {size} after flattening"
    shown = _mm(flat, style)
    if shown == _mm(blank.thickness, style):
        shown = f"{_with_kerf(best, blank, means):.2f} mm"  # a hair less than is wanted
    place = "" if start is None else _place(start, blank, style)
    return Unmet(blank, reason, f"{shown} from {best.id}{place}{_smaller(best, blank, means, style)}")


def _start(source: Source, blank: Blank) -> float | None:
    """Where on a board told at stations the blank would lie best; None on any other."""
    if source.timber is None or not source.timber.stations:
        return None
    ends = (source.bin.ends[0] / SCALE, source.bin.ends[1] / SCALE)
    return flattest_at(source.timber, blank.rough_length, blank.rough_width, ends)


def _place(start: float, blank: Blank, style: Style) -> str:
    ends = f"{_mm(start, style)} and {_mm(start + blank.rough_length, style)}"
    return f" between {ends}, where it is flattest"


def _smaller(source: Source, blank: Blank, means: Means, style: Style) -> str:
    """How short or how narrow a blank would have to be to reach its thickness from a board."""

    def thick(length: float, width: float) -> float:
        return reach(source, length + source.across.kerf, width + source.along.kerf, means)

    long = _greatest(lambda length: thick(length, blank.rough_width), blank.rough_length, blank.thickness)
    wide = _greatest(lambda width: thick(blank.rough_length, width), blank.rough_width, blank.thickness)
    ways = [f"{_mm(size, style)} {way}" for size, way in ((long, "long"), (wide, "wide")) if size]
    if not ways:
        return ""
    size = _mm(blank.thickness, style)
    return f"; it gives {size} where the rough blank is no more than {' or '.join(ways)}"


def _greatest(thick: Callable[[float], float], most: float, wanted: float) -> float:
    """The greatest size under `most`, to a step, at which a blank is thick enough; 0 where none of use is."""
    sizes = (most * (_STEPS - n) / _STEPS for n in range(1, _STEPS // 2 + 1))
    return next((size for size in sizes if thick(size) >= wanted), 0.0)


def _with_kerf(source: Source, blank: Blank, means: Means) -> float:
    """Thickness a blank can reach where up to a kerf each way stays on it. [mm]"""
    return reach(
        source, blank.rough_length + source.across.kerf, blank.rough_width + source.along.kerf, means
    )


def unmet_panel(need: Need, panel: Panel, sources: tuple[Source, ...], shop: Shop) -> Unmet:
    """The reason a panel cannot be glued up from staves of what there is."""
    way = next(way for way in need.ways if way.role is Role.STAVE)
    blank = blank_of(need, way, 1, 1, way.width, "stave")
    style = Style(shop.unit, shop.fraction)
    widest = max(panel.widest) / SCALE
    size = f"{_mm(way.length, style)} long and {_mm(way.thickness, style)} thick"
    wanted = f"{_mm(way.width, style)} of staves {size}"
    if not widest:
        stave = blank_of(need, way, 1, 1, way.stave[0], "stave")
        return Unmet(blank, f"not even the narrowest stave: {unmet(stave, sources, shop).reason}", "")
    most = way.counts[1] * widest
    if most < way.width:
        reason = (
            f"{wanted}: {way.counts[1]} staves, {_mm(widest, style)} wide at most from these boards, "
            f"make {_mm(most, style)}; allow {math.ceil(way.width / widest)} staves, or find wider boards"
        )
        return Unmet(blank, reason, f"{_mm(most, style)} wide")
    return Unmet(blank, f"{wanted}: the boards that could give them are used up by other parts", "")


def plan_notes(layouts: Sequence[StockLayout], blanks: Sequence[Blank], shop: Shop) -> list[str]:
    """What the maker should know about the plan as a whole."""
    style = Style(shop.unit, shop.fraction)
    solid = [layout for layout in layouts if layout.kind is MaterialKind.SOLID]
    yard = {board.id for board in shop.for_sale}
    notes = _flatness_notes(solid, blanks, shop)
    if any(layout.stock.partition("#")[0] in yard for layout in solid):
        bow, crook = _mm(allow.USUAL_BOW, style), _mm(allow.USUAL_CROOK, style)
        cup, twist = _mm(allow.USUAL_CUP, style), _mm(allow.USUAL_TWIST, style)
        notes.append(
            f"boards to buy are taken to be warped as usual: over {_mm(allow.USUAL_LENGTH, style)}, a bow of "
            f"{bow}, crook {crook}, cup {cup}, twist {twist}; choose none worse, and none with knots"
        )
    return notes


def _flatness_notes(solid: Sequence[StockLayout], blanks: Sequence[Blank], shop: Shop) -> list[str]:
    """How flatness was told, and the boards on which the plan hangs by three readings alone."""
    rack = {board.id: board for board in shop.boards}
    told = [l.stock for l in solid if l.stock in rack and rack[l.stock].stations]
    notes = []
    if any(not layout.bought and layout.stock not in told for layout in solid):
        notes.append(
            "flatness is worked out from one reading of bow, cup and twist a board, which holds for an even "
            "bend; measure a kinked or S-bent board again once it is cut to rough length"
        )
    if told:
        notes.append(
            f"flatness of {', '.join(told)} is worked out from the stations: every blank lies where the "
            "board is flat enough for it, so keep the places of the crosscuts as drawn"
        )
    needed = {blank.id: blank.thickness for blank in blanks}
    untold = [layout for layout in solid if layout.stock in rack and layout.stock not in told]
    if hang := [layout.stock for layout in untold if _hangs(layout, rack[layout.stock], needed)]:
        step = _mm(_STATIONS_APART, Style(shop.unit, shop.fraction))
        notes.append(
            f"the plan hangs on {', '.join(hang)} bending evenly (a blank has less than {_HANGS:g} mm to "
            "spare): before cutting, write in the shop file, as stations, the gap under a straightedge about "
            f"every {step}, and plan again"
        )
    return notes


def _hangs(layout: StockLayout, board: Board, needed: Mapping[str, float]) -> bool:
    """Whether a blank of a board that is not flat has little to spare."""
    return any(
        flat - needed[blank] < _HANGS and layout.thickness - clean_up(board.surface) - flat > _WARPED
        for blank, flat in layout.flat
        if blank in needed
    )


def _nothing(blank: Blank) -> str:
    thick = blank.label if blank.label is not None else blank.thickness
    match blank.kind:
        case MaterialKind.SHEET:
            return f"no {blank.species} marked {thick:g} mm is on the rack or for sale"
        case MaterialKind.LUMBER:
            return f"no {blank.nominal or blank.species} is on the rack or for sale"
        case MaterialKind.SOLID:
            return f"no {_said(blank.species)} is on the rack or for sale"


def _said(species: str) -> str:
    """A wood as makers say it: "black walnut"."""
    return species_named(species).spoken if is_species_name(species) else species


def _largest(sources: tuple[Source, ...], style: Style) -> str:
    best = max(sources, key=lambda s: s.length * s.width)
    return f"{_mm(best.length, style)} x {_mm(best.width, style)} ({best.id})"


def _mm(value: float, style: Style) -> str:
    return format_length(value, style).text
