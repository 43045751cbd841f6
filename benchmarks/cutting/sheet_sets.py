"""The ten classes of Berkey and Wang 1987 (1 to 6) and Martello and Vigo 1998 (7 to 10), recipes from memory.

20, 40, 60, 80 and 100 pieces, ten of each in the published sets; the numbers drawn are ours.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from benchmarks.cutting.sheet_files import SheetInstance

from scantling.cutting.solver.guillotine import Flaw, Rectangle, SheetKind, SheetProblem

SIZES = (20, 40, 60, 80, 100)
_SQUARES = {1: (10, 10), 2: (30, 10), 3: (40, 35), 4: (100, 35), 5: (100, 100), 6: (300, 100)}  # sheet, most
_HALF, _MOST = (1, 50), (67, 100)
_SHAPES = ((_MOST, _HALF), (_HALF, _MOST), ((50, 100), (50, 100)), (_HALF, _HALF))
_USUAL = 0.7  # share of a class's own shape


def sets(each: int, seed: int, *, turns: bool) -> Iterator[SheetInstance]:
    """So many of every class and number of pieces."""
    for kind in range(1, 11):
        for count in SIZES:
            for number in range(each):
                draw = random.Random(f"{seed} {kind} {count} {number}")
                yield SheetInstance(f"class {kind}", f"{count}/{number}", _drawn(draw, kind, count, turns))


def _drawn(draw: random.Random, kind: int, count: int, turns: bool) -> SheetProblem:
    if kind in _SQUARES:
        side, most = _SQUARES[kind]
        sizes = [(draw.randint(1, most), draw.randint(1, most)) for _ in range(count)]
    else:
        side = 100
        sizes = [_shaped(draw, kind - 7) for _ in range(count)]
    return SheetProblem((SheetKind(side, side),), tuple(Rectangle(*size, 1, turns) for size in sizes))


def _shaped(draw: random.Random, own: int) -> tuple[int, int]:
    others = [shape for shape in range(len(_SHAPES)) if shape != own]
    long, wide = _SHAPES[own if draw.random() < _USUAL else draw.choice(others)]
    return draw.randint(*long), draw.randint(*wide)


def unequal(each: int, seed: int, *, turns: bool) -> Iterator[SheetInstance]:
    """Our own: sheets of up to four sizes, dearer by area the smaller they are, a few of them owned; with and
    without flaws; kerf and trim; as often as wanted, in two stages, in three.
    """
    for flawed in (False, True):
        for stages in (None, 2, 3):
            for count in (20, 50, 100):
                for number in range(each):
                    draw = random.Random(f"{seed} {flawed} {stages} {count} {number}")
                    problem = _unequal(draw, count, flawed, stages, turns)
                    told = f"{'free' if stages is None else f'{stages} stages'}{', flawed' if flawed else ''}"
                    yield SheetInstance(f"unequal, {told}", f"{count}/{number}", problem)


def _unequal(draw: random.Random, count: int, flawed: bool, stages: int | None, turns: bool) -> SheetProblem:
    sheets = []
    for size in draw.sample(((244, 122), (122, 122), (305, 153), (250, 125), (152, 76)), draw.randint(2, 4)):
        area = size[0] * size[1]
        supply = draw.choice((None, None, 2))
        cost = round(area / 100 * (1.25 - area / 200_000) * draw.uniform(0.9, 1.1))
        flaws = tuple(_flaw(draw, size) for _ in range(draw.randint(1, 3) if flawed else 0))
        sheets.append(SheetKind(*size, cost, supply, (1, 1, 1, 1), flaws))
    sheets.append(SheetKind(244, 122, 320))
    sizes = [(draw.randint(12, 110), draw.randint(8, 60)) for _ in range(count)]
    wanted = tuple(Rectangle(*size, 1, turns) for size in sizes)
    return SheetProblem(tuple(sheets), wanted, draw.choice((0, 1)), stages)


def _flaw(draw: random.Random, size: tuple[int, int]) -> Flaw:
    x, y = draw.randrange(size[0] - 4), draw.randrange(size[1] - 4)
    return Flaw(x, x + draw.randint(1, 12), y, y + draw.randint(1, 8))
