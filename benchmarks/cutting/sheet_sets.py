"""The ten classes of Berkey and Wang 1987 (1 to 6) and Martello and Vigo 1998 (7 to 10), recipes from memory.

20, 40, 60, 80 and 100 pieces, ten of each in the published sets; the numbers drawn are ours.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

from benchmarks.cutting.sheet_files import SheetInstance

from scantling.cutting.solver.guillotine import Rectangle, SheetKind, SheetProblem

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
