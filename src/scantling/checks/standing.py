"""On what the piece stands, and what pulls it over: the ground polygon and moments about its edges.

Lengths mm, masses kg, forces N; moments N mm. Statics; nothing here knows severities.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import hypot

from scantling.checks.examined import GRAVITY, Examined
from scantling.piece.model import Axis, PartName, Vec3

REACHES_FLOOR = 1.0  # mm
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class GroundEdge:
    """One side of the ground polygon; `normal` points outward."""

    at: Point
    normal: Point

    def beyond(self, point: Point) -> float:
        """How far a point lies outside the edge; negative inside. [mm]"""
        return (point[0] - self.at[0]) * self.normal[0] + (point[1] - self.at[1]) * self.normal[1]

    @property
    def word(self) -> str:
        """The side of the piece it faces, in a maker's word."""
        wide, deep = self.normal
        if abs(wide) > abs(deep):
            return "right" if wide > 0 else "left"
        return "back" if deep > 0 else "front"


@dataclass(frozen=True, slots=True)
class Weight:
    """A mass at a place."""

    mass: float
    at: Vec3


@dataclass(frozen=True, slots=True)
class Push:
    """A force at a place; `toward` is its unit direction. [N]"""

    force: float
    at: Vec3
    toward: Vec3


@dataclass(frozen=True, slots=True)
class Balance:
    """Moments about one edge: what holds it down and what tips it. [N mm]"""

    edge: GroundEdge
    holding: float
    tipping: float
    inside: float  # N of weight inside the edge
    outside: float  # N pressing down outside it

    @property
    def ratio(self) -> float:
        return self.holding / self.tipping if self.tipping > 0 else float("inf")

    def feet_outward(self, wanted: float) -> float:
        """How much farther out the edge must lie for a ratio of `wanted`. [mm]"""
        short = wanted * self.tipping - self.holding
        return max(short / (self.inside + wanted * self.outside), 0.0)


@lru_cache(maxsize=2)
def ground_edges(examined: Examined) -> tuple[GroundEdge, ...]:
    """Edges of the polygon round everything that reaches the floor; empty if nothing does."""
    floor = examined.piece.overall.low[Axis.HIGH]
    points = [
        (x, y)
        for name in floor_parts(examined)
        for x, y, z in examined.corners(name)
        if z <= floor + REACHES_FLOOR
    ]
    hull = convex_hull(points)
    return _edges(hull) if len(hull) >= 3 else ()


def floor_parts(examined: Examined) -> tuple[PartName, ...]:
    """Parts that reach the floor."""
    floor = examined.piece.overall.low[Axis.HIGH] + REACHES_FLOOR
    return tuple(n for n, s in examined.scene.solids.items() if s.bounds.low[Axis.HIGH] <= floor)


def balance(edge: GroundEdge, weights: Iterable[Weight], pushes: Iterable[Push], floor: float) -> Balance:
    """Moments of weights and pushes about an edge at floor height."""
    holding = tipping = inside = outside = 0.0
    for weight in weights:
        reach = edge.beyond((weight.at[0], weight.at[1]))
        force = weight.mass * GRAVITY
        holding += force * max(-reach, 0.0)
        tipping += force * max(reach, 0.0)
        inside += force if reach <= 0 else 0.0
        outside += force if reach > 0 else 0.0
    for push in pushes:
        reach = edge.beyond((push.at[0], push.at[1]))
        down = -push.force * push.toward[2]
        outward = push.force * (push.toward[0] * edge.normal[0] + push.toward[1] * edge.normal[1])
        moment = outward * (push.at[2] - floor) + down * reach
        holding += max(-moment, 0.0)
        tipping += max(moment, 0.0)
        outside += max(down, 0.0) if reach > 0 else 0.0
    return Balance(edge, holding, tipping, inside, outside)


def convex_hull(points: Iterable[Point]) -> list[Point]:
    """The hull, anticlockwise, without points along its sides."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered
    lower, upper = _half(ordered), _half(ordered[::-1])
    return lower[:-1] + upper[:-1]


def _half(points: list[Point]) -> list[Point]:
    chain: list[Point] = []
    for point in points:
        while len(chain) >= 2 and _turn(chain[-2], chain[-1], point) <= 1e-9:
            chain.pop()
        chain.append(point)
    return chain


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _edges(hull: list[Point]) -> tuple[GroundEdge, ...]:
    edges = []
    for a, b in zip(hull, hull[1:] + hull[:1], strict=True):
        long = hypot(b[0] - a[0], b[1] - a[1])
        edges.append(GroundEdge(a, ((b[1] - a[1]) / long, (a[0] - b[0]) / long)))
    return tuple(edges)
