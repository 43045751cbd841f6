"""Faces of leaning, tapered, round and curved parts, read at one height (or length). Part's own frame, mm."""

from __future__ import annotations

import math
from collections.abc import Callable

from scantling.piece.model import Axis, Face, Lean, Outline, OutlineKind, Section, Taper
from scantling.piece.resolve.tree import Thing
from scantling.piece.resolve.views import across_and_up, crossing, drawn, runs_down, runs_left

Where = Callable[[Axis], float]


def face_at(thing: Thing, face: Face, where: Where) -> float:
    """The place of `face` where the asking part is."""
    low, high = span_at(thing, face.axis, where)
    return low if face.sign < 0 else high


def span_at(thing: Thing, axis: Axis, where: Where) -> tuple[float, float]:
    """Both faces along `axis` at the asking part's place; only what shapes that axis is worked out."""
    reach = thing.reach(axis)
    low, high = reach.low, reach.high
    if not thing.family.is_shaped:
        return low, high
    workings = thing.common.workings
    if workings.taper_axis(thing) not in (None, axis):
        taper = workings.taper(thing)
        assert taper is not None
        low, high = _tapered(thing, taper, axis, low, high, where)
    if axis is not Axis.HIGH:
        lean = workings.lean(thing)
        if lean is not None:
            low, high = _leaned(thing, lean, axis, low, high, where)
    outline = workings.outline(thing)
    if outline is not None and axis is not outline.seen_from.axis:
        low, high = _outlined(thing, outline, axis, low, high, where)
    return low, high


def _tapered(
    thing: Thing, taper: Taper, axis: Axis, low: float, high: float, where: Where
) -> tuple[float, float]:
    cut_faces = {face for face in taper.faces if face.axis is axis}
    if taper.faces and not cut_faces:
        return low, high
    run = thing.reach(taper.end.axis)
    end = run.low if taper.end.sign < 0 else run.high
    gone = (where(taper.end.axis) - taper.start) / (end - taper.start)
    cut = (high - low - taper.to) * min(max(gone, 0.0), 1.0)
    if len(cut_faces) == 1:
        (face,) = cut_faces
        return (low + cut, high) if face.sign < 0 else (low, high - cut)
    return low + cut / 2, high - cut / 2


def _leaned(
    thing: Thing, lean: Lean, axis: Axis, low: float, high: float, where: Where
) -> tuple[float, float]:
    run = thing.reach(Axis.HIGH)
    at = min(max(where(Axis.HIGH), run.low), run.high)
    gone = (run.high - at if lean.end is Face.BOTTOM else at - run.low) / run.size
    middle = (low + high) / 2 + lean.shift[axis] * gone
    half = (high - low) / 2 * widening(lean, thing.common.workings.section(thing), axis, run.size)
    return middle - half, middle + half


def widening(lean: Lean, section: Section, axis: Axis, height: float) -> float:
    """How much wider than square a leaning stick is, cut level along its middle line.

    Solid geometry: unit direction (a, b, c) of the stick. Round: 1/sqrt(1 - a²) along the cut through
    its middle. Square, turned the shortest way from upright (Rodrigues): its face normal has
    component 1 - a²/(1 + c) along the axis, and the level width grows by its inverse.
    """
    if section is Section.LEVEL:
        return 1.0
    wide, deep = lean.shift
    long = math.sqrt(wide * wide + deep * deep + height * height)
    a, c = lean.shift[axis] / long, height / long
    if section in (Section.ROUND, Section.OVAL):
        return 1 / math.sqrt(1 - a * a)
    return 1 / (1 - a * a / (1 + c))


def _outlined(
    thing: Thing, outline: Outline, axis: Axis, low: float, high: float, where: Where
) -> tuple[float, float]:
    if outline.kind is OutlineKind.PATH:
        return _path_span(thing, outline, axis, low, high, where)
    if outline.kind is OutlineKind.CORNERS:
        inset = _corner_inset(thing, outline, axis, where)
        return low + inset, high - inset
    return _round_span(thing, outline, axis, low, high, where, 0.0)


def _corner_inset(thing: Thing, outline: Outline, axis: Axis, where: Where) -> float:
    """How far a rounded corner stands back: r - sqrt(r² - (r - d)²), at d from the end."""
    other = next(a for a in Axis if a not in (axis, outline.seen_from.axis))
    across = thing.reach(other)
    at = min(max(where(other), across.low), across.high)
    radius = outline.radius
    short = radius - min(at - across.low, across.high - at)
    return radius - math.sqrt(radius * radius - short * short) if short > 0 else 0.0


def _path_span(
    thing: Thing, outline: Outline, axis: Axis, low: float, high: float, where: Where
) -> tuple[float, float]:
    """Where a line through the asking part's place enters and leaves the outline; the box where it misses."""
    across, up = across_and_up(outline.seen_from)
    other = up if axis is across else across
    run = thing.reach(other)
    turned = {across: runs_left(outline.seen_from), up: runs_down(outline.seen_from)}
    at = run.high - where(other) if turned[other] else where(other) - run.low
    found = crossing(drawn(outline.path), at, upright=axis is up)
    if found is None:
        return low, high
    if turned[axis]:
        return high - found[1], high - found[0]
    return low + found[0], low + found[1]


def _round_span(
    thing: Thing, outline: Outline, axis: Axis, low: float, high: float, where: Where, wall: float
) -> tuple[float, float]:
    """Ellipse filling the box, less `wall` all round: half chord a·sqrt(1 - (y/b)²)."""
    other = next(a for a in Axis if a not in (axis, outline.seen_from.axis))
    across = thing.reach(other)
    off = (where(other) - across.middle) / (across.size / 2 - wall)
    half = ((high - low) / 2 - wall) * math.sqrt(max(0.0, 1 - off * off))
    middle = (low + high) / 2
    return middle - half, middle + half


def inner_wall_at(thing: Thing, face: Face, where: Where) -> float:
    """The inner wall of a ring, on the side of `face`."""
    outline = thing.common.workings.outline(thing)
    assert outline is not None
    reach = thing.reach(face.axis)
    wall = outline.radius
    low, high = _round_span(thing, outline, face.axis, reach.low, reach.high, where, wall)
    return low if face.sign < 0 else high
