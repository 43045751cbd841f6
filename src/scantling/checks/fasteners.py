"""Do drilled holes stay inside the wood, keep apart, and leave wood beside them?

A second look at the finished parts: the joint layout chooses the sizes, this measures what came out.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import inf, sqrt

from scantling.checks.examined import Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.joinery.bounds import bounds_of, overlap
from scantling.joinery.features import Hole, MachinedPart
from scantling.piece.model import TOUCH, Box, PartName, Vec3

BLIND = frozenset({"dowel", "pilot", "screw", "pin", "cup"})  # the others come out where parts meet
THINNEST_DOWEL = 6.0  # mm: what shops sell; common practice, no source
LEFT_TO_LAYOUT = frozenset({"countersink", "pocket"})  # shallow or slanting: the joint layout sees to them


def fasteners(examined: Examined) -> Iterator[Finding]:
    """Holes of every definition once; what the joint layout has already said is not said again."""
    told: set[tuple[str, str, str]] = set()
    for machined in examined.machined.parts:
        for finding, key in _hole_findings(examined, machined):
            label = (finding.code, machined.part.definition, key)
            if label not in told:
                told.add(label)
                yield finding


def _hole_findings(examined: Examined, machined: MachinedPart) -> Iterator[tuple[Finding, str]]:
    if machined.part.shape.is_box and not _told(examined, "hole breaks out", machined.name):
        yield from _single_holes(examined, machined)
    if not _told(examined, "joints clash", machined.name):
        deep = [hole for hole in machined.holes if hole.purpose not in LEFT_TO_LAYOUT]
        for one, other in combinations(deep, 2):
            found = _meeting(examined, machined, one, other)
            if found is not None:
                yield found, "pair"


def _told(examined: Examined, code: str, part: PartName) -> bool:
    """Whether the joint layout has already reported that on the part."""
    return any(notice.code == code and part in notice.parts for notice in examined.machined.notices)


def _single_holes(examined: Examined, machined: MachinedPart) -> Iterator[tuple[Finding, str]]:
    for hole in machined.holes:
        for finding in _depth(examined, machined, hole):
            yield finding, hole.purpose
        if not _told(examined, "dowel too thick", machined.name):
            for finding in _walls(examined, machined, hole):
                yield finding, hole.purpose


def _depth(examined: Examined, machined: MachinedPart, hole: Hole) -> Iterator[Finding]:
    if hole.through or hole.purpose not in BLIND:
        return
    left = _way_out(machined.cut_box, hole.at, hole.direction) - hole.deep
    limits = ("comes out the far side", "little wood behind a hole")
    for code in limits:
        limit = rule(code).allowed
        if left < limit - TOUCH:
            less = examined.step_up(rule(limits[1]).allowed - left)
            yield rule(code).found(
                f"{machined.name}: a {hole.purpose} hole {examined.length(hole.deep)} deep "
                + ("comes out the far side" if left < 0 else f"leaves {examined.small(left)} behind it"),
                (machined.name,),
                left,
                mend=Mend(f"drill it {examined.length(less)} less deep, with a fastener as much shorter"),
                spot=machined.part.placement.point(hole.at),
                place=machined.part.place,
            )
            return


def _way_out(box: Box, at: Vec3, direction: Vec3) -> float:
    """How far a line from `at` goes before it leaves the box. [mm]"""
    ways = [inf]
    for low, high, start, step in zip(box.low, box.high, at, direction, strict=True):
        if abs(step) > 1e-9:
            ways.append(((high if step > 0 else low) - start) / step)
    return min(ways)


def _walls(examined: Examined, machined: MachinedPart, hole: Hole) -> Iterator[Finding]:
    """Wood between a dowel hole and the nearest face beside it."""
    if hole.purpose != "dowel":
        return
    limit = rule("thin wall beside a dowel").allowed
    sides = [
        (min(hole.at[i] - machined.cut_box.low[i], machined.cut_box.high[i] - hole.at[i]) - hole.diameter / 2)
        for i in range(3)
        if abs(hole.direction[i]) < 0.5
    ]
    if sides and min(sides) < limit - TOUCH:
        wall = min(sides)
        thinner = hole.diameter - 2 * (limit - wall)
        size = f"use a dowel of {examined.length(thinner)} or less, or move it inward"
        way = size if thinner >= THINNEST_DOWEL else "join it another way there, or use thicker wood"
        yield rule("thin wall beside a dowel").found(
            f"{machined.name}: {examined.small(max(wall, 0.0))} of wood beside a dowel hole of "
            f"{examined.length(hole.diameter)}",
            (machined.name,),
            wall,
            mend=Mend(way),
            spot=machined.part.placement.point(hole.at),
            place=machined.part.place,
        )


def _meeting(examined: Examined, machined: MachinedPart, one: Hole, other: Hole) -> Finding | None:
    pins = one.purpose == other.purpose == "pin"
    if one.owner == other.owner and not pins:  # a bolt is meant to meet its nut, a counterbore its pilot
        return None
    limit = rule("holes close together").allowed
    radii = (one.diameter + other.diameter) / 2
    if _far_apart(one, other, radii + limit):
        return None
    wood = max(_axes_apart(one, other) - radii, _boxes_apart(one, other))
    if wood >= limit - TOUCH:
        return None
    code = "holes meet" if wood < 0 else "holes close together"
    return rule(code).found(
        f"{machined.name}: a {one.purpose} hole and a {other.purpose} hole "
        + ("run into each other" if wood < 0 else f"leave {examined.small(wood)} between them"),
        (machined.name,),
        wood,
        mend=Mend(
            f"shift one of the joints {examined.length(examined.step_up(limit - wood))} along the part"
        ),
        spot=machined.part.placement.point(one.at),
        place=machined.part.place,
    )


def _boxes_apart(one: Hole, other: Hole) -> float:
    """Gap between the boxes round two bores: a wide shallow one is no ball. [mm]"""
    first, second = bounds_of(one), bounds_of(other)
    assert first is not None
    assert second is not None
    return -overlap(first, second)


def _far_apart(one: Hole, other: Hole, reach: float) -> bool:
    """Quick refusal: the holes' own boxes lie farther apart than `reach` along some axis."""
    for a, d, b, e in zip(one.at, one.direction, other.at, other.direction, strict=True):
        end, other_end = a + d * one.deep, b + e * other.deep
        if min(a, end) - max(b, other_end) > reach or min(b, other_end) - max(a, end) > reach:
            return True
    return False


def _axes_apart(one: Hole, other: Hole) -> float:
    """Least distance between the two drilled axes, end to end. [mm]"""
    d1 = [d * one.deep for d in one.direction]
    d2 = [d * other.deep for d in other.direction]
    r = [a - b for a, b in zip(one.at, other.at, strict=True)]
    a, e = _dot(d1, d1), _dot(d2, d2)
    b, c, f = _dot(d1, d2), _dot(d1, r), _dot(d2, r)
    denominator = a * e - b * b
    s = _clamp((b * f - c * e) / denominator) if denominator > 1e-9 else 0.0
    t = (b * s + f) / e if e > 0 else 0.0
    if t < 0.0 or t > 1.0:
        t = _clamp(t)
        s = _clamp((b * t - c) / a) if a > 0 else 0.0
    gap = [r[i] + d1[i] * s - d2[i] * t for i in range(3)]
    return sqrt(_dot(gap, gap))


def _dot(a: list[float], b: list[float]) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _clamp(value: float) -> float:
    return min(max(value, 0.0), 1.0)
