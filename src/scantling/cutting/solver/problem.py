"""The yield problem in its own terms: rectangles wanted, bins to cut them from, what may not be covered.

All lengths are whole numbers of 1/SCALE mm; wants and kerfs are rounded up and stock is rounded down, so
that a plan in whole numbers is a plan in real ones. x runs along a bin's grain, y across it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

SCALE = 100


def up(mm: float) -> int:
    """Whole units not smaller than `mm` (a hair below a whole number counts as that number)."""
    return math.ceil(mm * SCALE - 1e-6)


def down(mm: float) -> int:
    """Whole units not larger than `mm`."""
    return math.floor(mm * SCALE + 1e-6)


@dataclass(frozen=True, slots=True)
class Barred:
    """A rectangle no item of care `level` or more may cover: 0 bars all items, 2 only the choosiest."""

    x0: int
    x1: int
    y0: int
    y1: int
    level: int


@dataclass(frozen=True)
class Stock:
    """Equal bins: `count` of them (None: as many as wanted), each costing `money`.

    `ends` and `edges`: unusable at x = 0 / x = length and at y = 0 / y = width. `crook`: edgewise bend of
    the whole length; a segment loses its share (length/whole)² of it in width. `rate`: value of a unit of
    area. `turned`: x and y are exchanged (ripped first); bins of one `pool` are the same pieces of stock.
    `keep`: least length and width of a leftover worth keeping.
    """

    pool: int
    length: int
    width: int
    count: int | None
    money: float
    rate: float
    kerf_across: int
    kerf_along: int
    ends: tuple[int, int] = (0, 0)
    edges: tuple[int, int] = (0, 0)
    crook: int = 0
    barred: tuple[Barred, ...] = ()
    turned: bool = False
    keep: tuple[int, int] = (300 * SCALE, 40 * SCALE)

    @cached_property
    def against(self) -> tuple[tuple[Barred, ...], ...]:
        """What is barred for items of care 0, 1 and 2."""
        return tuple(tuple(b for b in self.barred if b.level <= care) for care in range(3))


Runs = tuple[tuple[int, int], ...]  # stretches of x, each from the first to the last, in order
Places = tuple[tuple[int, Runs], ...]
"""For stocks on which a want may not start just anywhere: where it may. It lies along the grain there."""


def runs_of(places: Places, stock: int) -> Runs | None:
    """Where along a stock a want may start; None: anywhere."""
    return next((runs for number, runs in places if number == stock), None)


@dataclass(frozen=True, slots=True)
class Item:
    """One rectangle wanted, `length` along the grain; `fits`: the stocks that can give it.

    `turns`: it may also lie across. `care`: see `Barred`. `tied`: it is put in before what is free to lie
    elsewhere.
    """

    id: int
    length: int
    width: int
    care: int
    fits: frozenset[int]
    turns: bool = False
    tied: bool = False
    places: Places = ()


@dataclass(frozen=True, slots=True)
class Panel:
    """Strips wanted of one length whose widths, each less `extra`, add up to `need`.

    Each strip less `extra` is `least` to `most` wide (on stock s at most `widest[s]`, 0: that stock cannot
    give one), and their number is within `counts`. `held`: on these stocks strips are kept this narrow, so
    that they may lie in all of `places`; what is proven lets them be as wide as `widest`.
    """

    id: int
    length: int
    need: int
    extra: int
    least: int
    most: int
    counts: tuple[int, int]
    care: int
    widest: tuple[int, ...]
    tied: bool = False
    places: Places = ()
    held: tuple[tuple[int, int], ...] = ()

    def widest_on(self, stock: int) -> int:
        """How wide a strip less `extra` is made at most on a stock."""
        return next((width for number, width in self.held if number == stock), self.widest[stock])


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing that is made in one of several ways: each way names the wants it takes, all of them.

    `against`: what each way weighs besides what it uses up [money].
    """

    ways: tuple[frozenset[int], ...]
    against: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """Items and panels that no choice names are wanted in any case.

    `homes`: wants and the bins (pool, copy) they lay in before, which they leave only to save money.
    """

    stocks: tuple[Stock, ...]
    items: tuple[Item, ...]
    panels: tuple[Panel, ...] = ()
    homes: frozenset[tuple[int, tuple[int, int]]] = frozenset()
    choices: tuple[Choice, ...] = ()

    @property
    def wants(self) -> tuple[Item | Panel, ...]:
        """Items and panels."""
        return (*self.items, *self.panels)

    def __post_init__(self) -> None:
        if any(len(p.widest) != len(self.stocks) for p in self.panels):
            raise ValueError("a panel's `widest` must name every stock")
        if any(i.length <= 0 or i.width <= 0 for i in self.items):
            raise ValueError("an item must have a length and a width")
