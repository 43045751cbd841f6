"""Why a blank cannot be had, in a maker's words, and the best that can be reached."""

from __future__ import annotations

from scantling.cutting.cut_plan import Blank, Unmet
from scantling.cutting.milling import means_of, why_not
from scantling.cutting.supply import Source
from scantling.cutting.wants import can_give, reach
from scantling.piece.model import MaterialKind
from scantling.quantity import Style, format_length
from scantling.shop.model import Shop


def unmet(blank: Blank, sources: tuple[Source, ...], shop: Shop) -> Unmet:
    """The reason nothing gives this blank."""
    style = Style(shop.unit, shop.fraction)
    size = f"{_mm(blank.rough_length, style)} x {_mm(blank.rough_width, style)}"
    if not sources:
        return Unmet(blank, _nothing(blank), "")
    means = means_of(shop.machines)
    if any(can_give(source, blank, means) for source in sources):
        return Unmet(blank, f"the stock that could give it ({size}) is used up by other parts", "")
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
        return Unmet(blank, f"no board of {blank.species} is {size}", _largest(sources, style))
    best = max(big, key=lambda s: reach(s, blank.rough_length, blank.rough_width, means))
    flat = reach(best, blank.rough_length, blank.rough_width, means)
    if flat < blank.thickness and best.timber is not None:
        machine = why_not(best.timber, blank.rough_length, blank.rough_width, shop)
        if machine:
            return Unmet(
                blank, f"{size}: {machine}", f"{best.id} measures {_mm(best.thickness, style)} as it is"
            )
    reason = f"no board gives a {_mm(blank.thickness, style)} blank {size} after flattening"
    return Unmet(blank, reason, f"{_mm(flat, style)} from {best.id}")


def _nothing(blank: Blank) -> str:
    thick = blank.label if blank.label is not None else blank.thickness
    match blank.kind:
        case MaterialKind.SHEET:
            return f"no {blank.species} marked {thick:g} mm is on the rack or for sale"
        case MaterialKind.LUMBER:
            return f"no {blank.nominal or blank.species} is on the rack or for sale"
        case MaterialKind.SOLID:
            return f"no {blank.species} is on the rack or for sale"


def _largest(sources: tuple[Source, ...], style: Style) -> str:
    best = max(sources, key=lambda s: s.length * s.width)
    return f"{_mm(best.length, style)} x {_mm(best.width, style)} ({best.id})"


def _mm(value: float, style: Style) -> str:
    return format_length(value, style).text
