"""Seeded racks of warped boards and demands for parts, for property tests and for measuring. Invented data.

Thickness, width, warp and knots follow what racks of hardwood look like (common practice, no source); every
board bends evenly, for that is what three readings can say.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

from scantling.errors import Place
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece.model import Axis, Box, Face, Material, MaterialKind, Part, Piece
from scantling.quantity import LengthUnit
from scantling.shop.model import (
    Board,
    BoardFace,
    BoardForSale,
    Defect,
    Machine,
    MachineKind,
    Shop,
    Station,
    Surface,
    Warp,
)

HERE = Place("generated", 1, 1)
_QUARTERS = (("4/4", 25.4, 62), ("5/4", 31.8, 15), ("8/4", 50.8, 23))


@dataclass(frozen=True)
class Case:
    machined: MachinedPiece
    shop: Shop


def case(seed: int, boards: int = 20, parts: int = 60, *, sells: bool = True) -> Case:
    """A rack and a demand; `sells`: whether more of the wood can be bought."""
    draw = random.Random(seed)
    rack = tuple(_board(draw, number) for number in range(1, boards + 1))
    sold = (
        BoardForSale("yard 4/4", "cherry", "4/4", 25.4, 177.8, 2438.4, Surface.ROUGH, 8.0, HERE),
        BoardForSale("yard 8/4", "cherry", "8/4", 50.8, 177.8, 2438.4, Surface.ROUGH, 10.5, HERE),
    )
    shop = Shop("generated", LengthUnit.MM, rack, for_sale=sold if sells else (), machines=_machines(draw))
    wanted = tuple(_parts(draw, parts))
    box = Box((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))
    piece = Piece("generated", LengthUnit.MM, box, tuple(p.part for p in wanted))
    return Case(MachinedPiece(piece, wanted), shop)


def told_at_stations(made: Case, seed: int, share: float = 1.0) -> Case:
    """The case with a share of its boards told at stations: bent near an end, kinked or waved, and twisted in
    one region, no worse at the worst place than its three readings.
    """
    draw = random.Random(seed)
    boards = tuple(
        replace(b, stations=_stations(draw, b)) if draw.random() < share else b for b in made.shop.boards
    )
    return Case(made.machined, replace(made.shop, boards=boards))


def _stations(draw: random.Random, board: Board) -> tuple[Station, ...]:
    count = max(round(board.length / 300), 2)
    shape = draw.choice((_bend, _kink, _wave))
    gaps = shape(draw, count)
    deep = board.warp.bow / max(max(map(abs, gaps)), 1e-9)
    from_, to = sorted(draw.uniform(0, 1) for _ in range(2))
    found = []
    for n in range(1, count + 1):
        turned = min(max((n / count - from_) / max(to - from_, 0.1), 0.0), 1.0)
        found.append(
            Station(
                board.length * n / count,
                round(gaps[n] * deep, 1),
                round(board.warp.cup * draw.uniform(0, 1), 1),
                round(board.warp.twist * turned, 1),
            )
        )
    return tuple(found)


def _bend(draw: random.Random, count: int) -> list[float]:
    """Bent near one end: level, then up; told from the line through both ends."""
    first = draw.uniform(0.6, 0.85)
    raw = [max(n / count - first, 0.0) ** 2 for n in range(count + 1)]
    return [raw[-1] * n / count - z for n, z in enumerate(raw)]


def _kink(draw: random.Random, count: int) -> list[float]:
    at = draw.uniform(0.2, 0.8)
    return [min(n / count / at, (1 - n / count) / (1 - at)) for n in range(count + 1)]


def _wave(draw: random.Random, count: int) -> list[float]:
    skew = draw.uniform(0.7, 1.4)
    return [math.sin(2 * math.pi * (n / count) ** skew) for n in range(count + 1)]


def _board(draw: random.Random, number: int) -> Board:
    nominal, thick, _ = draw.choices(_QUARTERS, weights=[q[2] for q in _QUARTERS])[0]
    length = 304.8 * draw.randint(4, 12) + draw.uniform(0, 60)
    width = draw.triangular(95, 300, 165)
    stiff = 0.6 if nominal == "8/4" else 1.0
    long, wide = length / 2440, width / 200
    warp = Warp(
        bow=4.5 * draw.lognormvariate(0, 0.5) * long**2 * stiff,
        crook=3.0 * draw.lognormvariate(0, 0.5) * long**2 * stiff,
        cup=1.2 * draw.lognormvariate(0, 0.5) * wide**2 * stiff,
        twist=3.0 * draw.lognormvariate(0, 0.5) * long * wide * stiff,
    )
    return Board(
        id=f"board {number}",
        species="cherry",
        length=round(length, 1),
        width=round(width, 1),
        thickness=round(thick + draw.uniform(-1, 1), 1),
        surface=draw.choices((Surface.ROUGH, Surface.ONE_FACE, Surface.TWO_FACES), weights=(7, 1, 2))[0],
        warp=warp,
        place=HERE,
        nominal=nominal,
        defects=tuple(_defects(draw, length, width)),
        end_waste=round(draw.uniform(20, 80), 0),
    )


def _defects(draw: random.Random, length: float, width: float) -> Iterator[Defect]:
    expected = draw.uniform(1, 6) * length * width / 1e6
    while draw.random() < expected / (1 + expected):
        expected *= 0.8
        x, y, size = draw.uniform(0, length), draw.uniform(0, width), draw.uniform(8, 40)
        kind = "sound knot" if draw.random() < 0.45 else "knot"
        face = draw.choice((BoardFace.BEST, BoardFace.OTHER, BoardFace.BOTH))
        yield Defect(
            kind,
            max(x - size, 0),
            min(x + size, length),
            max(y - size / 2, 0),
            min(y + size / 2, width),
            face,
        )
    if draw.random() < 0.25:
        start = draw.uniform(0, length * 0.7)
        yield Defect("wane", start, min(start + draw.uniform(100, 800), length), 0.0, draw.uniform(5, 30))


def _machines(draw: random.Random) -> tuple[Machine, ...]:
    saw = Machine("table saw", MachineKind.TABLE_SAW, HERE, kerf=draw.choice((2.4, 3.175)))
    rough = Machine("circular saw", MachineKind.CIRCULAR_SAW, HERE, kerf=1.8)
    planer = Machine(
        "planer",
        MachineKind.PLANER,
        HERE,
        most_width=317.5,
        most_thickness=152.0,
        least_length=draw.choice((250.0, 300.0, 350.0)),
        snipe=draw.choice((None, 50.0, 75.0)),
        sled=True,
        sled_thickness=38.0,
    )
    plane = Machine("hand plane", MachineKind.HAND_PLANE, HERE)
    return (saw, rough, planer, plane) if draw.random() < 0.3 else (saw, rough, planer)


def _parts(draw: random.Random, count: int) -> Iterator[MachinedPart]:
    made = 0
    while made < count:
        kind = draw.choice(("rails", "slats", "blocks", "legs", "panel"))
        copies = {
            "rails": 2,
            "slats": draw.randint(3, 8),
            "blocks": draw.randint(2, 8),
            "legs": 4,
            "panel": 1,
        }[kind]
        size = {
            "rails": (draw.uniform(400, 1400), draw.uniform(50, 140), draw.choice((19.05, 22.0))),
            "slats": (draw.uniform(300, 900), draw.uniform(30, 70), draw.choice((12.7, 19.05))),
            "blocks": (draw.uniform(40, 180), draw.uniform(30, 90), 19.05),
            "legs": (draw.uniform(400, 740), *(2 * (draw.uniform(38, 46),))),
            "panel": (draw.uniform(400, 1100), draw.uniform(220, 560), draw.choice((16.0, 19.05))),
        }[kind]
        shown = draw.choice((None, None, frozenset({Face.TOP}), frozenset[Face]()))
        for copy in range(1, copies + 1):
            yield _part(f"{kind} {made} {copy}", f"{kind} {made}", size, shown)
        made += copies


def _part(
    name: str, definition: str, size: tuple[float, float, float], shown: frozenset[Face] | None
) -> MachinedPart:
    length, width, thickness = size
    box = Box((0.0, 0.0, 0.0), (round(length, 1), round(width, 1), round(thickness, 2)))
    material = Material("wood", "cherry", MaterialKind.SOLID, "cherry, black")
    part = Part(name, definition, box, material, Axis.WIDE, HERE, show=shown)
    return MachinedPart(part, box)
