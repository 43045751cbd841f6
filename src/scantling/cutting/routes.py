"""Ways to come by the wood, side by side: as planned, what is on hand, sold rough, sold surfaced, sheets."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.cutting.comparing import share_used
from scantling.cutting.cut_plan import CutPlan, Unmet
from scantling.cutting.facts import milled_blanks, tightest
from scantling.cutting.plan import cut_plan, plan_on
from scantling.cutting.rack import Rack, rack_left
from scantling.joinery.features import MachinedPiece
from scantling.quantity import Style, format_length
from scantling.shop.model import Shop, Surface

_LITTLE = 1.0  # mm to spare, less than which readings of a board may miss; common practice, no source
_TIGHT, _FAIR = 0.5, 1.5  # mm to spare over the thickness needed; common practice, no source


@dataclass(frozen=True, slots=True)
class Flatness:
    """How near the flattest blanks come to too thin. `spare`: least thickness over what is needed [mm].

    `words` names the blank and its board; `spare` is None where nothing is milled. `tight`: how many of the
    `milled` blanks have less than a millimetre to spare.
    """

    words: str
    spare: float | None
    tight: int = 0
    milled: int = 0


@dataclass(frozen=True)
class Route:
    """One way to come by the wood. `cannot`: what it gives no wood for. `used`: as of `share_used`."""

    name: str
    machined: MachinedPiece
    plan: CutPlan
    flatness: Flatness

    @property
    def cannot(self) -> tuple[Unmet, ...]:
        return self.plan.unmet

    @property
    def used(self) -> float:
        return share_used(self.plan)


def routes(
    machined: MachinedPiece,
    shop: Shop,
    sheeted: MachinedPiece | None = None,
    planned: CutPlan | None = None,
    *,
    seconds: float = 0.5,
) -> tuple[Route, ...]:
    """The plan first (`planned`, where it is made already), then what is on hand alone, what is bought with
    all boards rough and with all surfaced, and `sheeted` (the piece with sheet goods for what may be of
    either) on all there is. `seconds` for each, as of `cut_plan`.
    """
    rack = rack_left(shop, machined.piece.record, machined.piece.unit)
    found = [_route("mixture as planned", machined, planned or cut_plan(machined, shop), shop)]
    for name, left in (
        ("what is on hand", _owned(rack.shop)),
        ("bought rough", _for_sale(rack.shop, rough=True)),
        ("bought surfaced", _for_sale(rack.shop, rough=False)),
    ):
        plan = plan_on(Rack(left, rack.gone, ()), machined, shop, seconds=seconds)
        found.append(_route(name, machined, plan, shop))
    if sheeted is not None:
        found.append(_route("sheet goods", sheeted, cut_plan(sheeted, shop, seconds=seconds), shop))
    return tuple(found)


def _route(name: str, machined: MachinedPiece, plan: CutPlan, shop: Shop) -> Route:
    style = Style(machined.piece.unit, shop.fraction)
    return Route(name, machined, plan, flatness_of(plan, style))


def flatness_of(plan: CutPlan, style: Style) -> Flatness:
    """The blank nearest to too thin after flattening."""
    nearest = tightest(plan)
    if nearest is None or nearest.spare is None:
        return Flatness("nothing is milled flat", None)
    grade = "tight" if nearest.spare < _TIGHT else "fair" if nearest.spare < _FAIR else "ample"
    shown = format_length(nearest.spare, style)
    spare = shown.text if shown.shown_mm else "nothing"
    board = next(l.stock for l in plan.layouts if any(p.blank == nearest.blank.id for p in l.placed))
    words = f"{grade}: {nearest.blank.id} from {board} has {spare} to spare"
    milled = milled_blanks(plan)
    little = sum(each.spare is not None and each.spare < _LITTLE for each in milled)
    return Flatness(words, nearest.spare, little, len(milled))


def _owned(shop: Shop) -> Shop:
    return replace(
        shop,
        boards=tuple(b for b in shop.boards if b.owned),
        sheets=tuple(s for s in shop.sheets if s.owned),
        lumber=tuple(s for s in shop.lumber if s.owned),
        for_sale=(),
    )


def _for_sale(shop: Shop, *, rough: bool) -> Shop:
    """What is sold; of boards, those sawn rough or those with a face planed."""
    return replace(
        shop,
        boards=tuple(b for b in shop.boards if not b.owned and (b.surface is Surface.ROUGH) is rough),
        sheets=tuple(s for s in shop.sheets if not s.owned),
        lumber=tuple(s for s in shop.lumber if not s.owned),
        for_sale=tuple(b for b in shop.for_sale if (b.surface is Surface.ROUGH) is rough),
    )
