"""The bound is never below what a bin earns; bins are sound; both meet where nothing is relaxed."""

from __future__ import annotations

import dataclasses
import itertools
import os
import random
import subprocess
import sys
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting.solver.bin import Bin, put
from scantling.cutting.solver.costing import area_kept
from scantling.cutting.solver.offers import item_offer, key_of
from scantling.cutting.solver.pattern import Worth
from scantling.cutting.solver.pricing import Pricer
from scantling.cutting.solver.problem import Barred, Item, Panel, Problem, Stock


def _stock(length: int = 100_000, width: int = 20_000, **more: Any) -> Stock:
    return Stock(0, length, width, 1, 1.0, 1e-6, more.pop("across", 300), more.pop("along", 200), **more)


def _random(draw: random.Random) -> Problem:
    length, width = draw.randint(50_000, 120_000), draw.randint(8_000, 25_000)
    bars = []
    for _ in range(draw.randint(0, 4)):
        x, y = draw.randint(0, length), draw.randint(0, width)
        bars.append(
            Barred(x, x + draw.randint(100, 6_000), y, y + draw.randint(100, 3_000), draw.randint(0, 2))
        )
    stock = _stock(
        length,
        width,
        ends=(draw.choice((0, 2_000)), 1_500),
        edges=(draw.choice((0, 150)), 130),
        crook=draw.choice((0, 900)),
        barred=tuple(bars),
    )
    items = tuple(
        Item(n, draw.randint(8_000, 60_000), draw.randint(2_000, 9_000), draw.randint(0, 2), frozenset({0}))
        for n in range(draw.randint(1, 5))
    )
    return Problem((stock,), items)


def _faults(problem: Problem, made: Bin, most: dict[int, int]) -> list[str]:
    """Everything wrong with a bin, by the definition of the plan class alone."""
    stock, found = problem.stocks[made.stock], []
    ka, kb = stock.kerf_across, stock.kerf_along
    items = {i.id: i for i in problem.items}
    panels = {p.id: p for p in problem.panels}
    ends = (stock.ends[0], stock.length - stock.ends[1])
    found += [f"segment ends {g}" for g in made.segments if g.x0 < ends[0] or g.x1 > ends[1]]
    found += [f"segments {a}" for a, b in itertools.pairwise(made.segments) if b.x0 - a.x1 < ka]
    count: dict[int, int] = {}
    for g in made.segments:
        bend = stock.crook * ((g.x1 - g.x0) / stock.length) ** 2 / 2
        low, high = stock.edges[0] + bend, stock.width - stock.edges[1] - bend
        found += [f"edge {s}" for s in g.strips if s.y0 < low or s.y1 > high]
        found += [f"strips {a}" for a, b in itertools.pairwise(g.strips) if b.y0 - a.y1 < kb]
        for s in g.strips:
            found += [f"spots {a}" for a, b in itertools.pairwise(s.spots) if b.x - a.x - a.length < ka]
            for p in s.spots:
                count[p.want] = count.get(p.want, 0) + 1
                if p.x < g.x0 or p.x + p.length > g.x1 or p.y != s.y0 or p.y + p.width > s.y1:
                    found.append(f"outside {p}")
                want = items.get(p.want) or panels[p.want]
                if isinstance(want, Item) and (p.length, p.width) != (want.length, want.width):
                    found.append(f"size {p}")
                if isinstance(want, Panel) and not want.least <= p.width - want.extra <= want.widest[0]:
                    found.append(f"stave {p}")
                for b in stock.barred:
                    right, top = p.x + p.length, float(p.y + p.width)
                    # less than a kerf left over stays on the piece
                    right = g.x1 if g.x1 - right < ka else right
                    top = s.y1 if s.y1 - top < kb else top
                    top = high if high - top < kb else top
                    across = p.y < b.y1 + bend and top > b.y0 - bend
                    if b.level <= want.care and across and p.x < b.x1 and right > b.x0:
                        found.append(f"barred {p} {b}")
    return found + [f"too many {w}" for w, n in count.items() if n > most[w]]


def _worth(draw: random.Random, problem: Problem) -> Worth:
    earned = {i.id: i.length * i.width * draw.uniform(0.3, 2) for i in problem.items}
    return Worth(earned, {}, {}, draw.choice((0.0, 1e6)))  # with leftovers an area as good as itself


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_a_bin_filled_at_random_never_earns_more_than_the_bound(seed: int) -> None:
    draw = random.Random(seed)
    problem = _random(draw)
    most = {i.id: draw.randint(1, 9) for i in problem.items}
    pricer, worth = Pricer(problem, most), _worth(draw, problem)
    made = Bin(0, 0)
    wanted = [i for i in problem.items for _ in range(most[i.id])]
    for item in draw.sample(wanted, len(wanted)):
        offer = item_offer(problem.stocks[0], made, item, key_of(item))
        made = put(made, offer) if offer else made
    assert pricer.worth_of(made, worth) <= pricer.best(0, worth).bound


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_bins_are_sound_and_earn_what_they_say(seed: int) -> None:
    draw = random.Random(seed)
    problem = _random(draw)
    most = {i.id: draw.randint(1, 4) for i in problem.items}
    pricer, worth = Pricer(problem, most), _worth(draw, problem)
    priced = pricer.best(0, worth)
    for value, made in priced.bins:
        assert _faults(problem, made, most) == []
        left = worth.wood * 1e-6 * area_kept(problem.stocks[0], made)
        assert abs(value - left - sum(worth.item[s.want] for s in made.spots)) < 1e-6 * value
        assert value <= priced.bound


def test_whole_millimetres_without_bars_leave_no_gap() -> None:
    for seed in range(10):
        draw = random.Random(seed)
        items = tuple(
            Item(n, 100 * draw.randint(80, 400), 100 * draw.randint(20, 90), 0, frozenset({0}))
            for n in range(4)
        )
        problem = Problem((_stock(),), items)
        worth = _worth(draw, problem)
        priced = Pricer(problem, {i.id: 99 for i in items}).best(0, worth)
        assert priced.bins[0][0] > priced.bound * (1 - 1e-6)


def test_two_in_a_row_by_hand() -> None:
    """600 + 3 + 397 mm is a metre; 120 + 2 + 78 mm is the width."""
    items = tuple(
        Item(n, l, w, 0, frozenset({0})) for n, (l, w) in enumerate([(60_000, 12_000), (39_700, 7_800)])
    )
    priced = Pricer(Problem((_stock(),), items), {0: 1, 1: 9}).best(0, Worth({0: 10.0, 1: 3.0}, {}, {}))
    # beside the long one a short one, and two short ones across the rest
    assert priced.bins[0][0] == 19.0


def test_a_stave_is_as_wide_as_there_is_room_for() -> None:
    panel = Panel(0, 50_000, 30_000, 300, 5_000, 12_000, (1, 6), 0, (12_000,))
    priced = Pricer(Problem((_stock(),), (), (panel,)), {}).best(0, Worth({}, {0: 1.0}, {0: -100.0}))
    value, made = priced.bins[0]
    assert _faults(Problem((_stock(),), (), (panel,)), made, {0: 6}) == []
    assert value == sum(s.width - 300 for s in made.spots) - 100 * len(made.spots)
    assert value <= priced.bound
    assert sum(s.width for s in made.spots) > 19_000


def test_a_leftover_worth_keeping_earns_until_an_item_earns_more() -> None:
    """Of a metre by 200 mm one item and its kerf leave 697 mm as wide as the bin, worth 0.9 of its wood; a
    second one leaves 394 mm, a third less than is worth keeping.
    """
    problem = Problem((_stock(),), (Item(0, 30_000, 19_900, 0, frozenset({0})),))
    pricer = Pricer(problem, {0: 9})
    assert pricer.best(0, Worth({0: 0.5 * 30_000 * 20_000}, {}, {}, 1e6)).bins == ()
    for earned, count, left in ((0.95, 2, 39_400), (2.0, 3, 0)):
        worth = Worth({0: earned * 30_000 * 20_000}, {}, {}, 1e6)
        priced = pricer.best(0, worth)
        assert len(priced.bins[0][1].spots) == count
        assert priced.bins[0][0] == count * worth.item[0] + 0.9 * left * 20_000
        assert priced.bound >= priced.bins[0][0]


def test_what_is_not_asked_for_earns_nothing() -> None:
    problem = Problem((_stock(),), (Item(0, 30_000, 15_000, 0, frozenset({0})),))
    priced = Pricer(problem, {0: 0}).best(0, Worth({0: 1.0}, {}, {}))
    assert (priced.bound, priced.bins) == (0.0, ())


_TINY = """
from scantling.cutting.solver.pattern import Worth
from scantling.cutting.solver.pricing import Pricer
from scantling.cutting.solver.problem import Barred, Item, Problem, Stock
stock = Stock(0, 12_050, 6_030, 1, 1.0, 1e-6, 310, 190, (0, 70), crook=90,
    barred=(Barred(4_000, 4_900, 900, 1_800, 0),))
items = tuple(Item(n, l, w, 0, frozenset({0})) for n, (l, w) in enumerate([(3_730, 2_110), (2_240, 1_390)]))
print(Pricer(Problem((stock,), items), {0: 2, 1: 5}).best(0, Worth({0: 7.0, 1: 2.5}, {}, {})))
"""


def test_answers_are_the_same_without_compiling() -> None:
    plain, fast = (
        subprocess.run(
            [sys.executable, "-c", _TINY],
            env={**os.environ, "NUMBA_DISABLE_JIT": off},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for off in ("1", "0")
    )
    assert plain == fast
    assert "Spot" in plain


def test_bins_made_lie_only_where_wants_may() -> None:
    draw = random.Random(4)
    for _ in range(20):
        problem = _random(draw)
        (stock,) = problem.stocks
        starts = sorted(draw.randint(0, stock.length) for _ in range(2))
        places = ((0, ((starts[0], starts[1]),)),)
        items = tuple(dataclasses.replace(i, places=places) for i in problem.items)
        strips = Panel(
            90, 15_000, 20_000, 0, 2_000, 6_000, (1, 9), 0, (6_000,), places=places, held=((0, 3_000),)
        )
        told = dataclasses.replace(problem, items=items, panels=(strips,))
        worth = Worth({i.id: float(i.length) for i in items}, {90: 4.0}, {})
        pricer = Pricer(told, {i.id: 3 for i in items} | {90: 5})
        made = [pricer.loose(0, worth), *pricer.bins(0, worth, 2), *pricer.best(0, worth).bins]
        spots = [spot for _, bin_ in made for spot in bin_.spots]
        assert all(starts[0] <= spot.x <= starts[1] for spot in spots)
        assert all(spot.width <= 3_000 for spot in spots if spot.want == 90)
        assert all(not _faults(told, bin_, {i.id: 99 for i in items} | {90: 99}) for _, bin_ in made)
        assert pricer.bound(0, worth) >= max(earned for earned, _ in made) - 1e-6
