"""Sheets cut from edge to edge: a checker of its own, every way of cutting tried, printed bounds."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.cutting.solver.guillotine import (
    NOTHING,
    Flaw,
    Piece,
    Rectangle,
    SheetAnswer,
    SheetKind,
    SheetProblem,
    checking,
    solve,
)


def faults(answer: SheetAnswer) -> Iterator[str]:
    """Everything wrong with the sheets, each cut made over again."""
    problem, made = answer.problem, Counter[int]()
    for cut in answer.sheets:
        kind, whole = problem.sheets[cut.kind], cut.whole
        starts = [max(trim, problem.kerf) if trim else 0 for trim in kind.trim[::2]]
        ends = (kind.length - kind.trim[1], kind.width - kind.trim[3])
        if [whole.x, whole.y] != starts or (whole.x + whole.length, whole.y + whole.width) != ends:
            yield f"{whole} is no whole sheet"
        if problem.first and whole.parts and whole.across != (problem.first == "across"):
            yield "the first cut runs the other way"
        most = 10**9 if problem.stages is None else problem.stages
        if stages_of(whole, None) > most + problem.trimming:
            yield "too many stages"
        if problem.trimming and stages_of(whole, None, parting=True) > most:
            yield "a stage too many parts pieces"
        todo = [whole]
        while todo:
            piece = todo.pop()
            if piece.parts:
                yield from cut_faults(piece, problem.kerf)
                todo += piece.parts
            elif piece.wanted != NOTHING:
                made[piece.wanted] += 1
                want = problem.wanted[piece.wanted]
                size = (want.width, want.length) if piece.turned else (want.length, want.width)
                if (piece.length, piece.width) != size or (piece.turned and not want.turns):
                    yield f"{piece} is no {want}"
                for x0, x1, y0, y1 in kind.flaws:
                    beside = piece.x + piece.length <= x0 or x1 <= piece.x
                    if not beside and piece.y + piece.width > y0 and y1 > piece.y:
                        yield f"{piece} is flawed"
    unmet = dict(answer.unmet)
    for number, want in enumerate(problem.wanted):
        if made[number] + unmet.get(number, 0) != want.demand:
            yield f"{made[number]} of {want}"
    for number, kind in enumerate(problem.sheets):
        if kind.supply is not None and sum(cut.kind == number for cut in answer.sheets) > kind.supply:
            yield "more sheets than there are"


def stages_of(piece: Piece, across: bool | None, *, parting: bool = False) -> int:
    """How often the direction changes; `parting`: cuts that only free one piece from waste left out."""
    wanted = sum(leaf.wanted != NOTHING for leaf in piece.leaves())
    if not piece.parts or (parting and wanted < 2):
        return 0
    below = max(stages_of(part, piece.across, parting=parting) for part in piece.parts)
    return below + (piece.across != across)


def cut_faults(piece: Piece, kerf: int) -> Iterator[str]:
    below, *beyond = piece.parts
    size = (piece.length, piece.width) if piece.across else (piece.width, piece.length)
    start = piece.x if piece.across else piece.y
    spans = [
        (p.x, p.length, p.y, p.width) if piece.across else (p.y, p.width, p.x, p.length) for p in piece.parts
    ]
    sideways = piece.y if piece.across else piece.x
    if any((side, wide) != (sideways, size[1]) for _, _, side, wide in spans):
        yield f"{piece} is not cut from edge to edge"
    if spans[0][:2] != (start, piece.at - start) or below.length <= 0 or below.width <= 0:
        yield f"{below} does not end at the cut"
    left = start + size[0] - piece.at - kerf
    if beyond and spans[1][:2] != (piece.at + kerf, left):
        yield f"{beyond} does not begin beyond the kerf"
    if not beyond and left > 0:
        yield f"{left} is lost beyond the cut"


def fewest(problem: SheetProblem) -> int:
    """By every way to share out the pieces and every way to cut each sheet."""
    pieces = [n for n, want in enumerate(problem.wanted) for _ in range(want.demand)]

    def shared(left: tuple[int, ...], loads: tuple[tuple[int, ...], ...]) -> bool:
        if not left:
            return all(goes(problem, *problem.rooms[0], load) for load in loads)
        tried = set()
        for number, load in enumerate(loads):
            if load not in tried:
                tried.add(load)
                changed = tuple(sorted((*load, left[0])))
                if goes(problem, *problem.rooms[0], changed) and shared(
                    left[1:], (*loads[:number], changed, *loads[number + 1 :])
                ):
                    return True
        return False

    return next(n for n in range(len(pieces) + 1) if shared(tuple(pieces), ((),) * n))


@lru_cache(maxsize=100_000)
def goes(problem: SheetProblem, length: int, width: int, load: tuple[int, ...]) -> bool:
    """Whether these pieces can be cut from edge to edge from a rectangle, a kerf counted to each."""
    if not load:
        return True
    if len(load) == 1:
        along, across = problem.takes(load[0])
        turned = problem.wanted[load[0]].turns and across <= length and along <= width
        return (along <= length and across <= width) or turned
    for mask in range(1, 2 ** len(load) - 1):
        low = tuple(p for i, p in enumerate(load) if mask >> i & 1)
        high = tuple(p for i, p in enumerate(load) if not mask >> i & 1)
        if any(
            goes(problem, x, width, low) and goes(problem, length - x, width, high) for x in range(1, length)
        ):
            return True
        if any(
            goes(problem, length, y, low) and goes(problem, length, width - y, high) for y in range(1, width)
        ):
            return True
    return False


@st.composite
def kinds(draw: st.DrawFn, large: int) -> SheetKind:
    length, width = draw(st.integers(12, large)), draw(st.integers(12, large))
    trim = draw(st.sampled_from(((0, 0, 0, 0), (1, 2, 0, 3), (0, 0, 4, 1))))
    flaws = []
    for _ in range(draw(st.sampled_from((0, 0, 1, 3)))):
        x, y = draw(st.integers(0, length - 2)), draw(st.integers(0, width - 2))
        flaws.append(Flaw(x, x + draw(st.integers(1, 9)), y, y + draw(st.integers(1, 9))))
    supply = draw(st.sampled_from((None, 2)))
    return SheetKind(length, width, draw(st.integers(0, 9)), supply, trim, tuple(flaws))


@st.composite
def problems(draw: st.DrawFn, most: int = 12, large: int = 40) -> SheetProblem:
    sheets = tuple(draw(kinds(large)) for _ in range(draw(st.integers(1, 3))))
    wanted = tuple(
        Rectangle(
            draw(st.integers(1, large // 2)),
            draw(st.integers(1, large // 2)),
            draw(st.integers(0, 3)),
            draw(st.booleans()),
        )
        for _ in range(draw(st.integers(1, most)))
    )
    stages, first = draw(st.sampled_from((None, 1, 2, 3))), draw(st.sampled_from(("", "across", "along")))
    keep = draw(st.sampled_from((None, (9, 5))))
    return SheetProblem(sheets, wanted, draw(st.integers(0, 3)), stages, draw(st.booleans()), first, keep)


@given(problems())
@settings(max_examples=60, deadline=None)
def test_every_answer_can_be_cut(problem: SheetProblem) -> None:
    answer = solve(problem, seconds=5, steps=60)
    assert list(faults(answer)) == []
    assert list(checking.faults(answer)) == []
    assert answer.unmet or answer.bound <= answer.value


@st.composite
def tiny(draw: st.DrawFn) -> SheetProblem:
    wanted = tuple(
        Rectangle(draw(st.integers(2, 8)), draw(st.integers(2, 8)), 1, draw(st.booleans()))
        for _ in range(draw(st.integers(2, 5)))
    )
    return SheetProblem((SheetKind(10, 9),), wanted, draw(st.integers(0, 1)))


@given(tiny())
@settings(max_examples=25, deadline=None)
def test_never_fewer_than_every_way_of_cutting_gives(problem: SheetProblem) -> None:
    """And at most one more: see the kernel for the sheets it does not know."""
    answer = solve(problem, seconds=5, steps=400)
    assert list(faults(answer)) == []
    if not answer.unmet:
        best = fewest(problem)
        assert answer.bound <= best <= answer.value <= best + 1


def test_what_areas_do_not_tell() -> None:
    """Nine squares of 6 in sheets of 10: each wants a sheet, though their area is less than four.

    The bound by dual feasible functions knows (Fekete and Schepers 2001).
    """
    answer = solve(SheetProblem((SheetKind(10, 10),), (Rectangle(6, 6, 9),)), seconds=1)
    assert (answer.value, answer.bound, answer.proven) == (9, 9, True)


def test_a_kerf_more_and_it_goes_no_longer() -> None:
    four = (Rectangle(500, 250, 4),)
    assert solve(SheetProblem((SheetKind(1003, 503),), four, 3), seconds=1).value == 1
    assert solve(SheetProblem((SheetKind(1003, 503),), four, 4), seconds=5, steps=50).value == 4


def test_turning_saves_a_sheet() -> None:
    straight = SheetProblem((SheetKind(10, 6),), (Rectangle(6, 6), Rectangle(6, 4)))
    turned = SheetProblem((SheetKind(10, 6),), (Rectangle(6, 6), Rectangle(6, 4, turns=True)))
    assert [solve(p, seconds=1, steps=50).value for p in (straight, turned)] == [2, 1]


def test_same_seed_same_sheets() -> None:
    draw = random.Random(1)
    wanted = tuple(Rectangle(draw.randint(10, 60), draw.randint(10, 60)) for _ in range(40))
    problem = SheetProblem((SheetKind(100, 100),), wanted)
    first, second = (solve(problem, seconds=30, seed=5, steps=400) for _ in range(2))
    assert first.sheets == second.sheets
    assert list(faults(first)) == []


def test_too_large_and_too_few() -> None:
    problem = SheetProblem((SheetKind(10, 10, supply=1),), (Rectangle(11, 2), Rectangle(6, 6, 2)))
    answer = solve(problem, seconds=1)
    assert list(faults(answer)) == []
    assert answer.unmet == ((0, 1), (1, 1))
    assert (answer.value, answer.bound, answer.proven) == (1, 0, False)
    assert solve(SheetProblem((SheetKind(5, 5),), ()), seconds=1).value == 0


def test_thousands_on_one_sheet_and_on_many() -> None:
    for side in (4000, 100):
        problem = SheetProblem((SheetKind(side, side),), (Rectangle(50, 7, 2000), Rectangle(20, 9, 2000)))
        answer = solve(problem, seconds=60, steps=5)
        assert list(faults(answer)) == []
        assert answer.unmet == ()


_TINY = """
from scantling.cutting.solver import guillotine as g
wanted = tuple(g.Rectangle(7 + 5 * n % 31, 5 + 11 * n % 29, 1, n % 2 == 0) for n in range(12))
sheets = g.SheetKind(40, 37, 15, flaws=(g.Flaw(9, 12, 5, 8),)), g.SheetKind(30, 45, 13, 2)
print(g.solve(g.SheetProblem(sheets, wanted, 1), seconds=60, steps=900, seed=3))
print(g.solve(g.SheetProblem(sheets[1:] + sheets[:1], wanted, 1, 3, keep=(9, 5)), seconds=60, steps=900))
print(g.solve(g.SheetProblem(sheets[:1], wanted, 1), seconds=60, steps=900, seed=3))
import sys
assert "numba" in sys.modules  # else there was too little to do to compile anything
"""


def test_sheets_are_the_same_without_compiling() -> None:
    pytest.importorskip("numba")
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
    assert "Piece" in plain


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: SheetProblem((SheetKind(0, 5),), ()),
        lambda: SheetProblem((SheetKind(5, 5, supply=-1),), ()),
        lambda: SheetProblem((SheetKind(5, 5),), (Rectangle(0, 1),)),
        lambda: SheetProblem((SheetKind(5, 5),), (Rectangle(1, 1, -1),)),
        lambda: SheetProblem((SheetKind(5, 5),), (), -1),
        lambda: SheetProblem((SheetKind(5, 5),), (), stages=0),
        lambda: SheetProblem((SheetKind(5, 5),), (), first="up"),
        lambda: SheetProblem((SheetKind(5, 5, -1),), ()),
        lambda: SheetProblem((SheetKind(5, 5, trim=(3, 2, 0, 0)),), ()),
        lambda: SheetProblem((SheetKind(5, 5, flaws=(Flaw(2, 2, 0, 1),)),), ()),
    ],
)
def test_what_makes_no_sense(wrong) -> None:
    with pytest.raises(ValueError, match=r"."):
        wrong()
