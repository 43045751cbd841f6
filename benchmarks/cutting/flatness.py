"""How far the loss worked out from three readings, or from stations, lies from the exact one of a surface.

Seeded boards of six families of shape; blanks anywhere on them; the exact loss is a linear program over a
fine grid. Invented shapes. `python -m benchmarks.cutting.flatness --blanks 300 --seed 0`
"""

from __future__ import annotations

import argparse
import math
import random
import statistics
import sys
from collections.abc import Callable
from dataclasses import dataclass

from scantling.cutting.milling import Timber, thickness_lost
from scantling.cutting.verifying.planes import range_over_planes
from scantling.shop.model import Surface, Warp
from scantling.wood.flattening import EXPECTED, SAFE, Station, loss_at

LENGTH, WIDTH = 2440.0, 200.0
ALONG, ACROSS = 40, 8  # steps of the grid over a blank

Line = Callable[[float], float]  # share of the length → mm, or rad


@dataclass(frozen=True)
class Shape:
    """`gap`, `cup`, `twist`: of the share of the length. [mm, mm over the whole width, rad]"""

    gap: Line
    cup: Line
    twist: Line

    def height(self, x: float, y: float) -> float:
        """y from the middle."""
        u = x / LENGTH
        return self.gap(u) + self.twist(u) * y + self.cup(u) * (2 * y / WIDTH) ** 2


def _even(draw: random.Random) -> Shape:
    bow, cup, twist = (m * draw.lognormvariate(0, 0.5) for m in (6.0, 1.2, 4.0))
    return Shape(lambda u: 4 * bow * u * (1 - u), lambda _: cup, lambda u: twist / WIDTH * u)


def _twist_in_one_region(draw: random.Random) -> Shape:
    base, start = _even(draw), draw.uniform(0.1, 0.6)
    turn = draw.uniform(4, 12) / WIDTH
    return Shape(base.gap, base.cup, lambda u: turn * min(max((u - start) / 0.3, 0.0), 1.0))


def _bend_near_one_end(draw: random.Random) -> Shape:
    base, start, deep = _even(draw), draw.uniform(0.6, 0.8), draw.uniform(6, 18)
    return Shape(lambda u: deep * (max(u - start, 0.0) / (1 - start)) ** 2, base.cup, base.twist)


def _kink(draw: random.Random) -> Shape:
    base, at, deep = _even(draw), draw.uniform(0.2, 0.8), draw.uniform(6, 18)
    return Shape(lambda u: deep * min(u / at, (1 - u) / (1 - at)), base.cup, base.twist)


def _s_bend(draw: random.Random) -> Shape:
    base, deep, skew = _even(draw), draw.uniform(5, 14), draw.uniform(0.8, 1.25)
    return Shape(lambda u: deep * math.sin(2 * math.pi * u**skew), base.cup, base.twist)


def _mixed(draw: random.Random) -> Shape:
    waves = [draw.gauss(0, 6 / n) for n in range(1, 5)]
    turns = [draw.gauss(0, 4 / n) / WIDTH for n in range(1, 3)]
    cup, slope = draw.uniform(0.4, 2), draw.uniform(-0.8, 0.8)
    return Shape(
        lambda u: sum(a * math.sin(n * math.pi * u) for n, a in enumerate(waves, start=1)),
        lambda u: cup * (1 + slope * (u - 0.5)),
        lambda u: sum(a * math.sin((n - 0.5) * math.pi * u) for n, a in enumerate(turns, start=1)),
    )


FAMILIES = {
    "even bow, cup, twist": _even,
    "twist in one region": _twist_in_one_region,
    "bend near one end": _bend_near_one_end,
    "kink": _kink,
    "S-bend": _s_bend,
    "mixed": _mixed,
}


def three_readings(shape: Shape) -> Timber:
    """What a string, a straightedge and winding sticks say of the whole board."""
    shares = [n / 200 for n in range(201)]
    start, end = shape.gap(0), shape.gap(1)
    bow = max(abs(shape.gap(u) - start - (end - start) * u) for u in shares)
    cup = max(abs(shape.cup(u)) for u in shares)
    twist = abs(shape.twist(1) - shape.twist(0)) * WIDTH
    return Timber(LENGTH, WIDTH, 25.4, Surface.ROUGH, Warp(bow, 0.0, cup, twist))


def stations(shape: Shape, step: float) -> list[Station]:
    """The board read about every `step` mm, ends included."""
    count = round(LENGTH / step)
    shares = [n / count for n in range(count + 1)]
    return [Station(LENGTH * u, shape.gap(u), shape.cup(u), shape.twist(u)) for u in shares]


def exact(shape: Shape, x0: float, y0: float, length: float, width: float) -> float:
    """Least range over all planes of the blank's own surface, y0 from the middle of the board."""
    return range_over_planes(
        [
            (x, y, shape.height(x, y))
            for x in (x0 + length * n / ALONG for n in range(ALONG + 1))
            for y in (y0 + width * n / ACROSS for n in range(ACROSS + 1))
        ]
    )


@dataclass(frozen=True)
class Rule:
    name: str
    loss: Callable[[Shape, float, float, float], float]


def _told(step: float, between: float) -> Callable[[Shape, float, float, float], float]:
    return lambda s, x, l, w: loss_at(stations(s, step), x, l, w, WIDTH, between)


RULES = (
    Rule("three readings", lambda s, _, l, w: thickness_lost(three_readings(s), l, w)),
    Rule("300 mm", _told(300, 0.0)),
    Rule("300 mm + D/8", _told(300, EXPECTED)),
    Rule("300 mm + D/4", _told(300, 2 * EXPECTED)),
    Rule("300 mm + D/2", _told(300, SAFE)),
    Rule("600 mm + D/8", _told(600, EXPECTED)),
    Rule("600 mm + D/2", _told(600, SAFE)),
)


def measured(family: str, blanks: int, seed: int) -> dict[str, list[float]]:
    """Rule → loss said less the exact loss, a blank each. [mm]"""
    draw = random.Random(seed)
    found: dict[str, list[float]] = {rule.name: [] for rule in RULES}
    for _ in range(blanks):
        shape = FAMILIES[family](draw)
        length, width = draw.uniform(300, 1800), draw.uniform(40, 180)
        x0 = draw.uniform(0, LENGTH - length)
        y0 = draw.uniform(-WIDTH / 2, WIDTH / 2 - width)
        least = exact(shape, x0, y0, length, width)
        for rule in RULES:
            found[rule.name].append(rule.loss(shape, x0, length, width) - least)
    return found


def main(words: list[str]) -> None:
    """Prints a table: of each family and rule, how often too little loss is said, the worst, the median."""
    parser = argparse.ArgumentParser(prog="python -m benchmarks.cutting.flatness")
    parser.add_argument("--blanks", type=int, default=300)
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args(words)
    print("| shape | rule | too little by > 0.3 mm | > 0.8 mm | worst | median |\n|---|---|---|---|---|---|")
    for family in FAMILIES:
        for name, over in measured(family, asked.blanks, asked.seed).items():
            small, large = (100 * sum(o < -limit for o in over) / len(over) for limit in (0.3, 0.8))
            row = f"{small:.0f} % | {large:.0f} % | {min(over):.2f} mm | {statistics.median(over):+.2f} mm"
            print(f"| {family} | {name} | {row} |")


if __name__ == "__main__":
    main(sys.argv[1:])
