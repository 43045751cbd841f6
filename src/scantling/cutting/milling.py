"""What flat blank a warped board can give, with the machines that stand in the shop.

The rule of thickness lost scales one bow, cup and twist reading to the blank and is safe for an evenly
bent board (worked out; checked against the least thickness range over all planes in the tests). A board
told at stations loses what it loses at the place of the blank.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from scantling.cutting import allowances as allow
from scantling.shop.model import Board, BoardForSale, Machine, MachineKind, Shop, Surface, Warp
from scantling.shop.stations import profile_of
from scantling.wood.flattening import Station, loss_at

_INF = float("inf")
_TRIED = 48  # places along a board at which the best of it is looked for


@dataclass(frozen=True, slots=True)
class Means:
    """What can flatten a face and bring a piece to thickness here; None where nothing can."""

    jointer: Machine | None
    planer: Machine | None
    free: Machine | None  # a hand plane, or a router on rails: no limits of size

    @property
    def least_length(self) -> float:
        """Shortest piece that can be brought to thickness. [mm]"""
        if self.planer is None or self.planer.least_length is None:
            return 0.0
        return self.planer.least_length

    @property
    def snipe(self) -> float:
        """Length lost at each end of a planed piece. [mm]"""
        return (self.planer.snipe or 0.0) if self.planer else 0.0

    @property
    def widest(self) -> float:
        """Widest piece that can be flattened and thicknessed. [mm]"""
        if self.free is not None:
            return _INF
        return (self.planer.most_width or _INF) if self.planer else 0.0


@dataclass(frozen=True, slots=True)
class Timber:
    """Solid stock, on the rack or to buy, as far as milling must know it."""

    length: float
    width: float
    thickness: float
    surface: Surface
    warp: Warp
    stations: tuple[Station, ...] = ()


@lru_cache(maxsize=64)
def means_of(shop_machines: tuple[Machine, ...]) -> Means:
    """What can flatten and thickness among these machines."""

    def first(kind: MachineKind) -> Machine | None:
        return next((m for m in shop_machines if m.kind is kind), None)

    return Means(
        jointer=first(MachineKind.JOINTER),
        planer=first(MachineKind.PLANER),
        free=first(MachineKind.HAND_PLANE) or first(MachineKind.ROUTER),
    )


def timber_of(stock: Board | BoardForSale) -> Timber:
    """A board as milling sees it; one not yet chosen is taken to be warped as boards usually are."""
    if isinstance(stock, Board):
        shape = profile_of(stock)
        return Timber(stock.length, stock.width, stock.thickness, stock.surface, stock.warp, shape)
    along = stock.length / allow.USUAL_LENGTH
    across = stock.width / allow.USUAL_WIDTH
    warp = Warp(
        bow=allow.USUAL_BOW * along**2,
        crook=allow.USUAL_CROOK * along**2,
        cup=allow.USUAL_CUP * across**2,
        twist=allow.USUAL_TWIST * along * across,
    )
    return Timber(stock.length, stock.width, stock.thickness, stock.surface, warp)


def thickness_lost(timber: Timber, length: float, width: float, at: float | None = None) -> float:
    """Thickness lost in flattening a blank length x width that starts `at` so far along, else at best. [mm]

    Of a board told at stations what it loses there; of an evenly bent one, anywhere:
    bow (l/L)² + cup (w/W)² + twist l w / (2 L W).
    Source: worked out from even curvature; twist shared between opposite corners.

    >>> even = Timber(2438.4, 203.2, 25.4, Surface.ROUGH, Warp(19.05, 0.0, 3.175, 9.525))
    >>> round(thickness_lost(even, 609.6, 101.6) / 25.4, 3)
    0.102
    """
    if timber.stations:
        if at is None:
            return _least_lost(timber, length, width)
        start = min(at, max(timber.length - length, 0.0))
        return loss_at(timber.stations, start, min(length, timber.length - start), width, timber.width)
    along, across, warp = length / timber.length, width / timber.width, timber.warp
    return warp.bow * along**2 + warp.cup * across**2 + warp.twist * along * across / 2


def _least_lost(timber: Timber, length: float, width: float) -> float:
    return thickness_lost(timber, length, width, flattest_at(timber, length, width))


@lru_cache(maxsize=1024)
def flattest_at(timber: Timber, length: float, width: float, ends: tuple[float, float] = (0.0, 0.0)) -> float:
    """Where along a board told at stations a blank of that size loses least, off its ends if it can. [mm]"""
    first = min(ends[0], max(timber.length - length, 0.0))
    step = max(timber.length - ends[1] - length - first, 0.0) / _TRIED
    tried = (first + number * step for number in range(_TRIED + 1))
    return min(tried, key=lambda at: thickness_lost(timber, length, width, at))


def clean_up(surface: Surface) -> float:
    """Least thickness taken off both faces together once a blank is flat. [mm]"""
    rough = {Surface.ROUGH: 2, Surface.ONE_FACE: 1}.get(surface, 0)
    return rough * allow.ROUGH_FACE + (2 - rough) * allow.SURFACED_FACE


def flat_thickness(
    timber: Timber, length: float, width: float, means: Means, at: float | None = None
) -> float:
    """Greatest flat thickness a blank of these rough sizes can be milled to; 0 where nothing can. [mm]

    `at`: where along the board it starts; None: where it loses least.
    """
    return thickness_left(timber, length, width, thickness_lost(timber, length, width, at), means)


def thickness_left(timber: Timber, length: float, width: float, lost: float, means: Means) -> float:
    """Flat thickness of a blank of these rough sizes that loses so much in flattening. [mm]"""
    surfaced = timber.surface in (Surface.TWO_FACES, Surface.FOUR_SIDES)
    as_it_is = timber.thickness if surfaced and lost <= allow.STILL_FLAT else 0.0
    if not can_mill(timber.thickness, length, width, lost, means):
        return as_it_is
    return max(as_it_is, timber.thickness - lost - clean_up(timber.surface), 0.0)


def can_mill(thickness: float, length: float, width: float, lost: float, means: Means) -> bool:
    """Whether a piece can be both flattened and thicknessed by what stands here."""
    return _can_thickness(thickness, length, width, means) and (
        lost <= allow.STILL_FLAT or _can_flatten(thickness, length, width, means)
    )


def _can_thickness(thickness: float, length: float, width: float, means: Means) -> bool:
    planer = means.planer
    if means.free is not None:
        return True
    return (
        planer is not None
        and width <= (planer.most_width or _INF)
        and length >= (planer.least_length or 0.0)
        and thickness <= (planer.most_thickness or _INF)
    )


def _can_flatten(thickness: float, length: float, width: float, means: Means) -> bool:
    if means.free is not None:
        return True
    jointer, planer = means.jointer, means.planer
    if jointer and width <= (jointer.most_width or _INF) and length >= (jointer.least_length or 0.0):
        return True
    return (
        planer is not None
        and planer.sled
        and thickness + planer.sled_thickness <= (planer.most_thickness or _INF)
        and length <= (planer.most_length or _INF)
    )


def widest_flat(timber: Timber, length: float, thickness: float, means: Means, most: float) -> float:
    """Widest blank of that length, at most `most`, that can still be milled to `thickness`; 0 if none."""
    most = min(most, timber.width)
    if flat_thickness(timber, length, most, means) >= thickness:
        return most
    low, high = 0.0, most
    for _ in range(24):
        middle = (low + high) / 2
        if flat_thickness(timber, length, middle, means) >= thickness:
            low = middle
        else:
            high = middle
    return low


def why_not(timber: Timber, length: float, width: float, shop: Shop) -> str:
    """In a maker's words, which machine stands in the way of milling this piece; "" if none does."""
    means = means_of(shop.machines)
    lost = thickness_lost(timber, length, width)
    if can_mill(timber.thickness, length, width, lost, means):
        return ""
    if means.planer is None:
        return (
            "nothing here can bring a board to thickness: a planer, a hand plane or a router on rails would"
        )
    if not _can_thickness(timber.thickness, length, width, means):
        return f"it does not suit the {means.planer.name} (width, length or thickness)"
    return "nothing here can flatten a face: a sled for the planer, a hand plane or a jointer would"
