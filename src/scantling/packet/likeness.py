"""Whether two machined parts are the same piece of wood: turned, mirrored, or different.

A part is described about the middle of its box; another is the same when one of the turns of a box that
keep the grain where it is lays it on the first. If only a mirror image does, the two are a handed pair.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import permutations, product
from math import copysign, floor

from scantling.joinery.features import MachinedPart, Prism
from scantling.piece.model import TOUCH, Box, Face, Part, Vec3

Turn = tuple[tuple[int, int, int], tuple[int, int, int]]  # axis taken for each axis, and its sign
Facts = frozenset[tuple[object, ...]]


@lru_cache(maxsize=4096)
def description(part: MachinedPart, turn: Turn) -> Facts:
    """Everything about the finished part that can be told apart, turned."""
    middle = part.part.box.centre
    facts: set[tuple[object, ...]] = {("box", *_block(part.part.box, middle, turn))}
    facts.add(("cut box", *_block(part.cut_box, middle, turn)))
    facts.add(("grain", turn[0].index(part.part.grain)))
    facts.update(_feature_facts(part, middle, turn))
    facts.update(_shape_facts(part.part, turn))
    return frozenset(facts)


def same(first: MachinedPart, second: MachinedPart) -> bool:
    """One can be laid on the other by turning it."""
    return _matches(first, second, mirrored=False)


def opposite(first: MachinedPart, second: MachinedPart) -> bool:
    """One is the other's mirror image."""
    return _matches(first, second, mirrored=True)


def _matches(first: MachinedPart, second: MachinedPart, mirrored: bool) -> bool:
    if _outside(first) != _outside(second):
        return False
    target = description(first, STILL)
    return any(description(second, turn) == target for turn in _turns(mirrored) if _fits(first, second, turn))


def _outside(part: MachinedPart) -> tuple[object, ...]:
    """What no turn changes; told before any turning is tried."""
    sizes = sorted(_steady(size) for size in part.cut_box.sizes)
    counts = (len(part.holes), len(part.cuts), len(part.additions), len(part.shaped), len(part.trims))
    return (part.part.material.text, *sizes, *counts)


def _fits(first: MachinedPart, second: MachinedPart, turn: Turn) -> bool:
    """Whether the turn lays grain on grain and the box on the box."""
    order = turn[0]
    if order[first.part.grain] != second.part.grain:
        return False
    mine, other = first.part.box.sizes, second.part.box.sizes
    return all(abs(mine[axis] - other[order[axis]]) < TOUCH for axis in range(3))


STILL: Turn = ((0, 1, 2), (1, 1, 1))


@lru_cache(maxsize=2)
def _turns(mirrored: bool) -> tuple[Turn, ...]:
    wanted = -1 if mirrored else 1
    every = ((order, signs) for order in permutations((0, 1, 2)) for signs in product((1, -1), repeat=3))
    return tuple(turn for turn in every if _parity(turn) == wanted)  # type: ignore[misc,arg-type]


def _parity(turn: Turn) -> int:
    order, signs = turn
    swaps = sum(order[i] > order[j] for i in range(3) for j in range(i + 1, 3))
    return int((-1) ** swaps) * signs[0] * signs[1] * signs[2]


def _turned(vector: Vec3, turn: Turn) -> Vec3:
    order, signs = turn
    values = [_steady(vector[axis] * sign) for axis, sign in zip(order, signs, strict=True)]
    return (values[0], values[1], values[2])


def _steady(value: float) -> float:
    """To 0.01, halves outward: 9.525 and its float neighbours give the same on either side of zero."""
    return copysign(floor(abs(value) * 100 + 0.5001), value) / 100 + 0.0


def _point(point: Vec3, middle: Vec3, turn: Turn) -> Vec3:
    return _turned((point[0] - middle[0], point[1] - middle[1], point[2] - middle[2]), turn)


def _block(box: Box, middle: Vec3, turn: Turn) -> tuple[Vec3, Vec3]:
    a, b = _point(box.low, middle, turn), _point(box.high, middle, turn)
    low = tuple(min(x, y) for x, y in zip(a, b, strict=True))
    high = tuple(max(x, y) for x, y in zip(a, b, strict=True))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _face(face: Face, turn: Turn) -> Vec3:
    return _turned(face.normal, turn)


def _feature_facts(part: MachinedPart, middle: Vec3, turn: Turn) -> set[tuple[object, ...]]:
    facts: set[tuple[object, ...]] = set()
    for hole in part.holes:
        place = _point(hole.at, middle, turn)
        way = _turned(hole.direction, turn)
        facts.add(("hole", place, way, _steady(hole.diameter), _steady(hole.deep), hole.through))
    for cut in part.cuts:
        facts.add(("cut", *_block(cut.box, middle, turn), _face(cut.face, turn), cut.round_ends))
    for extra in part.additions:
        facts.add(("addition", *_block(extra.box, middle, turn), _face(extra.face, turn)))
    for shaped in part.shaped:
        corners = frozenset(_point(corner, middle, turn) for corner in _prism_corners(shaped.prism))
        facts.add(("shaped", shaped.adds, corners))
    for trim in part.trims:
        reach = sum(n * (p - m) for n, p, m in zip(trim.normal, trim.point, middle, strict=True))
        facts.add(("trim", _turned(trim.normal, turn), _steady(reach)))
    facts.update(("cope", _face(cope.face, turn)) for cope in part.copes)
    return facts


def _prism_corners(prism: Prism) -> list[Vec3]:
    along, low, high = prism.along, prism.low, prism.high
    others = [axis for axis in range(3) if axis != along]
    corners = []
    for end in (low, high):
        for u, v in prism.profile:
            point = [0.0, 0.0, 0.0]
            point[along], point[others[0]], point[others[1]] = end, u, v
            corners.append((point[0], point[1], point[2]))
    return corners


def _shape_facts(part: Part, turn: Turn) -> set[tuple[object, ...]]:
    shape, facts = part.shape, set[tuple[object, ...]]()
    facts.add(("section", shape.section))
    if shape.lean:
        shift = (*shape.lean.shift, 0.0)
        facts.add(("lean", _face(shape.lean.end, turn), _turned(shift, turn)))
    if shape.taper:
        faces = frozenset(_face(face, turn) for face in shape.taper.faces)
        facts.add(("taper", _face(shape.taper.end, turn), _steady(shape.taper.to), faces))
    if shape.outline:
        outline = shape.outline
        facts.add(("outline", outline.kind, outline.path, _face(outline.seen_from, turn)))
    return facts
