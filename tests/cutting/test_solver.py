"""The solver core on problems in its own terms."""

from __future__ import annotations

import random
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.cutting.solver import Barred, Item, Panel, Problem, Search, Stock
from scantling.cutting.solver.bin import starts
from scantling.cutting.solver.offers import strip_widths

FOR_EVER = time.monotonic() + 1e6


def stock(length: int = 1000, width: int = 100, **changes) -> Stock:
    given = {
        "pool": 0,
        "count": None,
        "money": 1.0,
        "rate": 1.0,
        "kerf_across": 0,
        "kerf_along": 0,
        "keep": (10**9, 1),
    }
    return Stock(length=length, width=width, **(given | changes))


def items(*sizes: tuple[int, int], care: int = 2) -> tuple[Item, ...]:
    return tuple(Item(i, length, width, care, frozenset({0})) for i, (length, width) in enumerate(sizes))


def test_kerf_is_counted_between_and_not_at_the_end() -> None:
    # source: by hand; 3 x 332 + 2 x 2 = 1000
    for length, bins in ((332, 1), (333, 2)):
        problem = Problem((stock(kerf_across=2),), items(*[(length, 100)] * 3))
        assert len(Search(problem, 0).fill().bins) == bins


def test_barred_place_is_kept_clear() -> None:
    # source: by hand; 0..400 and 600..1000 are clear
    knot = Barred(400, 600, 0, 100, 0)
    for length, unmet in ((400, 0), (401, 2)):
        problem = Problem((stock(barred=(knot,), count=1),), items((length, 100), (length, 100)))
        filling = Search(problem, 0).fill()
        assert len(filling.unmet) == unmet
        assert all(p.x + p.length <= 400 or p.x >= 600 for b in filling.bins.values() for p in b.spots)


def test_less_choosy_item_may_lie_on_it() -> None:
    knot = Barred(400, 600, 0, 100, 2)
    for care, unmet in ((2, 1), (1, 0)):
        problem = Problem((stock(barred=(knot,), count=1),), items((900, 100), care=care))
        assert len(Search(problem, 0).fill().unmet) == unmet


def test_count_of_a_pool_is_shared_by_its_turned_twin() -> None:
    lying = stock(1000, 500, count=1)
    turned = stock(500, 1000, count=1, turned=True)
    wants = tuple(Item(i, 1000, 500, 2, frozenset({0, 1})) for i in range(2))
    filling = Search(Problem((lying, turned), wants), 0).fill()
    assert len(filling.bins) == 1
    assert len(filling.unmet) == 1


@pytest.mark.parametrize("seed", range(3))
def test_triplets_come_within_a_bin_of_their_known_best(seed: int) -> None:
    """Bins of 1000, each made to be filled exactly by three items of 250 to 500."""
    # source: exact; built from full bins, so their number is the best there is
    draw = random.Random(seed)
    lengths: list[int] = []
    for _ in range(12):
        first = draw.randint(380, 490)
        second = draw.randint(250, min(1000 - first - 250, 499))
        lengths += [first, second, 1000 - first - second]
    problem = Problem((stock(),), items(*[(length, 100) for length in lengths]))
    search = Search(problem, seed)
    filling = search.improve(search.fill(), 3000, FOR_EVER)
    assert 12 <= len(filling.bins) <= 13


@given(st.integers(100, 900), st.integers(30, 400), st.integers(2, 12), st.integers(0, 3))
def test_strip_widths_never_strand_a_panel(need: int, room: int, most: int, kerf: int) -> None:
    """Taking strips one after another from rooms of one size always ends with the panel wide enough."""
    panel = Panel(0, 500, need, 6, 40, 160, (2, most), 2, (160,))
    have = count = 0
    while have < need:
        width = strip_widths(panel, have, count, 160, kerf)(room)
        if not width:
            break
        assert width <= room
        assert 40 <= width - 6 <= 160
        have, count = have + width - 6, count + 1
    assert count <= most
    if have < need and count:
        # only a room too narrow for the number of strips allowed may stop it
        assert (need - have) > (most - count) * (room - 6)


def test_wrong_problem_is_refused() -> None:
    with pytest.raises(ValueError, match="length"):
        Problem((stock(),), (Item(0, 0, 10, 2, frozenset({0})),))
    with pytest.raises(ValueError, match="widest"):
        Problem((stock(),), (), (Panel(0, 10, 10, 1, 1, 10, (1, 2), 2, ()),))


def test_starts_only_where_a_want_may_lie() -> None:
    # source: by hand; 100 long from 250 to 300 or from 700 to 900, a kerf of 2
    here = stock(kerf_across=2)
    assert starts(here, (0, 1000), 100, 2, ((250, 300), (700, 900))) == [250, 700]
    assert starts(here, (260, 1000), 100, 2, ((250, 300), (700, 900))) == [260, 700]
    assert starts(here, (0, 340), 100, 2, ((250, 300),)) == []
    assert starts(here, (0, 1000), 100, 2, ()) == []
    assert starts(here, (0, 1000), 100, 2, ((0, 1),)) == [0]
    assert starts(here, (249, 1000), 100, 2, ((250, 300),)) == [251]  # a kerf frees it
    knot = Barred(720, 740, 0, 100, 0)
    assert starts(stock(barred=(knot,)), (0, 1000), 100, 2, ((700, 900),)) == [700, 740]


def test_items_and_panels_are_put_only_where_they_may_lie() -> None:
    places = ((0, ((300, 350), (800, 800))),)
    here = stock(kerf_across=2, kerf_along=2, count=1)
    made = tuple(Item(n, 150, 100, 2, frozenset({0}), places=places) for n in range(3))
    filling = Search(Problem((here,), made), 0).fill()
    assert len(filling.unmet) == 1
    assert sorted(s.x for b in filling.bins.values() for s in b.spots) == [300, 800]
    panel = Panel(0, 200, 140, 0, 40, 80, (1, 9), 2, (80,), places=places)
    filling = Search(Problem((here,), (), (panel,)), 0).fill()
    assert all(s.x in (300, 800) for b in filling.bins.values() for s in b.spots)
    assert not filling.unmet
