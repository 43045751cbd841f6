"""How likely a cut plan comes out, readings being what they are, and what to cut first where it may not.

Boards are drawn as they may be (`readings`), and every blank is replayed on them: flat thickness by the rule
of `milling` with its own shape of bend, width between crooked edges, length between the ends. Not drawn:
where knots and checks lie, and sheets and dressed lumber, which count as they are told.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.cutting import allowances as allow
from scantling.cutting.chances.readings import Drawn, Floats, Spread, drawn
from scantling.cutting.chances.units import Segment, Unit, segments_of
from scantling.cutting.cut_plan import Blank, CutPlan, StockLayout
from scantling.cutting.milling import Means, Timber, can_mill, clean_up, means_of, thickness_lost, timber_of
from scantling.cutting.supply import Source, boards_of_wood
from scantling.cutting.wants import can_give
from scantling.piece.model import MaterialKind
from scantling.shop.model import Board, BoardForSale, Shop
from scantling.wood.flattening import EXPECTED, SAFE, second_difference

Bools = NDArray[np.bool_]
_HAIR = 1e-6
_USUAL = Spread()
# What a rough blank may be short of and still be milled to size; common practice, no source.
WIDTH_GIVES, LENGTH_GIVES = allow.RIP_WIDTH / 2, allow.LENGTH_SHORT / 2


@dataclass(frozen=True, slots=True)
class BlankChance:
    """How likely a blank comes out of its board.

    `lacks`: what it is short of most often (thickness, width or length), by `short` mm on average where it
    is; `elsewhere`: other boards, here or for sale, that would give it.
    """

    blank: str
    stock: str
    chance: float
    lacks: str
    short: float
    elsewhere: int

    @property
    def concern(self) -> float:
        """Chance that it fails, and the more so the fewer boards could stand in."""
        return (1 - self.chance) / (1 + self.elsewhere)


@dataclass(frozen=True, slots=True)
class BoardChance:
    """How likely all of a board comes out.

    `first`: the blank to cut first, "" where none is in doubt: the one of most concern, so that what is
    learnt from it can still change the rest.
    """

    stock: str
    bought: bool
    chance: float
    first: str


@dataclass(frozen=True)
class RobustYield:
    """`chance`: share of the draws in which every blank comes out, within `error` (one standard error).

    `boards` in the plan's order; `doubtful`: blanks that fail in some draws, of most concern first.
    """

    samples: int
    chance: float
    boards: tuple[BoardChance, ...]
    doubtful: tuple[BlankChance, ...]

    @property
    def error(self) -> float:
        return math.sqrt(self.chance * (1 - self.chance) / self.samples)


def robust(
    plan: CutPlan, shop: Shop, *, seed: int = 0, samples: int = 2000, spread: Spread = _USUAL
) -> RobustYield:
    """So many draws of every solid board of a plan. `shop`: the rack the plan was made on."""
    blanks = {blank.id: blank for blank in plan.blanks}
    means = means_of(shop.machines)
    stock: dict[str, Board | BoardForSale] = {b.id: b for b in shop.for_sale}
    stock |= {b.id: b for b in shop.boards}
    used = {layout.stock for layout in plan.layouts}
    all_out = np.ones(samples, np.bool_)
    boards: list[BoardChance] = []
    doubtful: list[BlankChance] = []
    for layout in plan.layouts:
        if layout.kind is not MaterialKind.SOLID:
            continue
        board = stock[layout.stock.partition("#")[0]]
        draws = drawn(board, layout.stock, seed, samples, spread)
        short = _shortfalls(segments_of(layout, blanks), draws, board, means)
        out = np.all([each.fine for each in short.values()], axis=0)
        others = [s for s in boards_of_wood(layout.species, shop) if s.bought or s.id not in used]
        here = [_told(blanks[name], layout, lacking, others, means) for name, lacking in short.items()]
        some = sorted((b for b in here if b.chance < 1), key=_concern)
        boards.append(
            BoardChance(layout.stock, layout.bought, float(out.mean()), some[0].blank if some else "")
        )
        doubtful += some
        all_out &= out
    return RobustYield(samples, float(all_out.mean()), tuple(boards), tuple(sorted(doubtful, key=_concern)))


def _told(
    blank: Blank, layout: StockLayout, lacking: _Lacking, others: list[Source], means: Means
) -> BlankChance:
    short = {"thickness": lacking.thickness, "width": lacking.width, "length": lacking.length}
    means_short = {
        what: float(mm[mm > _HAIR].mean()) if (mm > _HAIR).any() else 0.0 for what, mm in short.items()
    }
    worst = max(short, key=lambda what: (int((short[what] > _HAIR).sum()), what))
    elsewhere = sum(can_give(source, blank, means) for source in others)
    chance = float(lacking.fine.mean())
    return BlankChance(blank.id, layout.stock, chance, worst, means_short[worst], elsewhere)


def _concern(chance: BlankChance) -> tuple[float, str]:
    return -chance.concern, chance.blank


@dataclass(frozen=True)
class _Lacking:
    """What a blank is short of in each draw, 0 or less where it is not. [mm]"""

    thickness: Floats
    width: Floats
    length: Floats

    @property
    def fine(self) -> Bools:
        return np.asarray(np.max([self.thickness, self.width, self.length], axis=0) <= _HAIR)


def _shortfalls(
    segments: tuple[Segment, ...], draws: Drawn, board: Board | BoardForSale, means: Means
) -> dict[str, _Lacking]:
    timber = timber_of(board)
    found: dict[str, _Lacking] = {}
    ends = board.end_waste if isinstance(board, Board) else allow.USUAL_END_WASTE
    for segment in segments:
        over = segment.x1 + ends - draws.length - LENGTH_GIVES
        wander = draws.crook * (segment.length / timber.length) ** 2
        wide = segment.across + wander - draws.width - WIDTH_GIVES
        for unit in segment.units:
            thick = unit.thickness - _flat(unit, draws, timber, means)
            lacking = _Lacking(thick, wide if _is_last(unit, segment) else np.minimum(wide, 0.0), over)
            found |= dict.fromkeys(unit.blanks, lacking)
    return found


def _is_last(unit: Unit, segment: Segment) -> bool:
    """Whether it is ripped last: a segment that is too narrow fails there."""
    return unit.y + unit.width >= max(u.y + u.width for u in segment.units) - _HAIR


def _lost(unit: Unit, draws: Drawn, timber: Timber) -> Floats:
    along, across = unit.length / timber.length, unit.width / timber.width
    turned = np.minimum(draws.turn * along, 1.0)
    return draws.bow * along**draws.bend + draws.cup * across**2 + draws.twist * turned * across / 2


def _lost_there(unit: Unit, draws: Drawn, timber: Timber) -> Floats:
    """Of a board told at stations: what is lost there, the error of the gaps read, and what an uneven bend
    between two stations adds, up to a kink half way.
    """
    expected = thickness_lost(timber, unit.length, unit.width, unit.x)
    bend = second_difference(timber.stations, unit.x, unit.length)
    return expected + (draws.bow - timber.warp.bow) + (2.0 - draws.bend) * (SAFE - EXPECTED) * bend


def _flat(unit: Unit, draws: Drawn, timber: Timber, means: Means) -> Floats:
    """Flat thickness the unit reaches in each draw; see `milling.flat_thickness`."""
    lost = _lost_there(unit, draws, timber) if timber.stations else _lost(unit, draws, timber)
    as_it_is = np.where(
        (clean_up(timber.surface) <= 2 * allow.SURFACED_FACE) & (lost <= allow.STILL_FLAT),
        draws.thickness,
        0.0,
    )
    level, bent = (
        can_mill(timber.thickness, unit.length, unit.width, needed, means) for needed in (0.0, np.inf)
    )
    able = np.where(lost <= allow.STILL_FLAT, level, bent)
    return np.where(able, np.maximum(as_it_is, draws.thickness - lost - clean_up(timber.surface)), as_it_is)
