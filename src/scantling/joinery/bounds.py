"""Upright boxes round features, and how near two bored holes come. mm, one part's frame."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from math import sqrt

from scantling.joinery.features import Addition, Cut, Feature, Hole, Prism, Shaped
from scantling.piece.model import Axis, Box, Vec3


def bounds_of(feature: Feature) -> Box | None:
    """The smallest upright box round what is bored, cut or added; None for trims and copes."""
    match feature:
        case Hole():
            return _hole_bounds(feature)
        case Cut() | Addition():
            return feature.box
        case Shaped():
            return prism_bounds(feature.prism)
        case _:
            return None


@lru_cache(maxsize=16384)
def _hole_bounds(hole: Hole) -> Box:
    low, high = [0.0] * 3, [0.0] * 3
    for i, (at, d) in enumerate(zip(hole.at, hole.direction, strict=True)):
        tip, side = at + d * hole.deep, hole.diameter / 2 * sqrt(max(0.0, 1.0 - d * d))
        low[i], high[i] = (at if at < tip else tip) - side, (tip if at < tip else at) + side
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def tip_of(hole: Hole) -> Vec3:
    """Where the bore ends."""
    at, d, deep = hole.at, hole.direction, hole.deep
    return (at[0] + d[0] * deep, at[1] + d[1] * deep, at[2] + d[2] * deep)


def prism_bounds(prism: Prism) -> Box:
    """The upright box round a prism."""
    u, v = (a for a in Axis if a != prism.along)
    low, high = [0.0] * 3, [0.0] * 3
    low[prism.along], high[prism.along] = prism.low, prism.high
    for axis, places in ((u, [p[0] for p in prism.profile]), (v, [p[1] for p in prism.profile])):
        low[axis], high[axis] = min(places), max(places)
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def round_all(boxes: Iterable[Box]) -> Box | None:
    """The smallest box round all of them; None of none."""
    found = list(boxes)
    if not found:
        return None
    low = tuple(map(min, zip(*(box.low for box in found), strict=True)))
    high = tuple(map(max, zip(*(box.high for box in found), strict=True)))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def overlap(a: Box, b: Box) -> float:
    """How deep two boxes enter each other: the least side of the common box, negative if apart."""
    (al, am, an), (ah, ai, aj), (bl, bm, bn), (bh, bi, bj) = a.low, a.high, b.low, b.high
    wide = (ah if ah < bh else bh) - (al if al > bl else bl)
    deep = (ai if ai < bi else bi) - (am if am > bm else bm)
    high = (aj if aj < bj else bj) - (an if an > bn else bn)
    return min(wide, deep, high)


def wood_between(a: Hole, b: Hole) -> float:
    """Clear wood between two bores, taken as rods with round ends; negative where they meet."""
    return _distance(a.at, tip_of(a), b.at, tip_of(b)) - (a.diameter + b.diameter) / 2


def _distance(p: Vec3, p_end: Vec3, q: Vec3, q_end: Vec3) -> float:
    """Least distance of two segments, by clamping the closest points of their lines."""
    u, v, w = _minus(p_end, p), _minus(q_end, q), _minus(p, q)
    a, b, c, d, e = _dot(u, u), _dot(u, v), _dot(v, v), _dot(u, w), _dot(v, w)
    square = a * c - b * b
    s = min(1.0, max(0.0, (b * e - c * d) / square)) if square > 1e-9 else 0.0
    t = (b * s + e) / c if c > 0 else 0.0
    if t < 0.0 or t > 1.0:
        t = min(1.0, max(0.0, t))
        s = min(1.0, max(0.0, (b * t - d) / a)) if a > 0 else 0.0
    gap = tuple(w[i] + s * u[i] - t * v[i] for i in range(3))
    return sqrt(sum(x * x for x in gap))


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _dot(a: Vec3, b: Vec3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
