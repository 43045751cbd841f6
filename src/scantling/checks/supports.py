"""On what a flat part lies, and how far it spans. Piece's frame, mm."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from scantling.checks.examined import Examined
from scantling.checks.holding import holding
from scantling.piece.model import FLOOR, TOUCH, WALL, Axis, Box, Hardware, PartName

ACROSS_ENOUGH = 0.5  # a line of support reaches at least half across
SPOT = 0.25  # of the span: longer meetings run beside it
STICK = 100.0  # mm: wider parts bend between supports even with one along an edge
RUNS_ALONG = 0.6  # a support this long beside the span runs along it, not across


@dataclass(frozen=True, slots=True)
class Line:
    """A line of support across a span, from `low` to `high` along it, on `parts`."""

    low: float
    high: float
    parts: tuple[PartName, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """The longest stretch between two lines of support along one axis, or past the last of them."""

    axis: Axis
    clear: float
    between: tuple[Line, Line]
    overhang: bool = False


def spans_of(examined: Examined, name: PartName) -> tuple[Span, ...]:
    """The longest clear stretch along each level axis in which the part is held at both ends."""
    supports = _supports(examined, name)
    spans = [_span(examined.bounds(name), supports, axis) for axis in (Axis.WIDE, Axis.DEEP)]
    return tuple(span for span in spans if span is not None)


def overhangs_of(examined: Examined, name: PartName) -> tuple[Span, ...]:
    """How far the part reaches past its outermost lines of support, where it has two or more."""
    supports = _supports(examined, name)
    found = [_overhang(examined.bounds(name), supports, axis) for axis in (Axis.WIDE, Axis.DEEP)]
    return tuple(each for each in found if each is not None)


def meeting_boxes(examined: Examined, name: PartName) -> tuple[tuple[PartName, Box], ...]:
    """Where other parts meet this one: by joints with an area, then by intended contacts."""
    found: list[tuple[PartName, Box]] = []
    for joint in examined.joints_of.get(name, ()):
        other = joint.second if joint.first == name else joint.first
        if joint.area is not None and other not in (WALL, FLOOR):
            found.append((other, joint.area))
    joined = {other for other, _ in found}
    for contact in examined.piece.contacts:
        pair = (contact.part, contact.other)
        if name in pair and contact.other not in (WALL, FLOOR):
            other = contact.other if contact.part == name else contact.part
            common = examined.bounds(name).intersection(examined.bounds(other))
            if other not in joined and common is not None:
                found.append((other, common))
    return tuple(found)


def _supports(examined: Examined, name: PartName) -> list[tuple[PartName, Box]]:
    """Parts it lies on or is fastened to, from below or above, and pins."""
    box = examined.bounds(name)
    firm = [j for j in examined.joints_of.get(name, ()) if holding(j.method).holds != "rests"]
    fastened = {part for joint in firm for part in (joint.first, joint.second)}
    found = [
        (other, area)
        for other, area in meeting_boxes(examined, name)
        if (other in fastened or area.centre[Axis.HIGH] < box.high[Axis.HIGH] - TOUCH)
        and _carries(examined, other, name)
    ]
    for hardware in examined.piece.hardware:
        if hardware.under == name:
            found += _pin_supports(box, hardware)
    return found


def _pin_supports(box: Box, hardware: Hardware) -> list[tuple[PartName, Box]]:
    """Shelf pins hold the two ends of the longer level side."""
    axis = Axis.WIDE if box.size(Axis.WIDE) >= box.size(Axis.DEEP) else Axis.DEEP
    low, high = box.low[axis], box.high[axis]
    ends = (box.with_span(axis, low, low), box.with_span(axis, high, high))
    return [(hardware.name, end) for end in ends]


def _carries(examined: Examined, other: PartName, carried: PartName) -> bool:
    """Whether `other` has something to stand or hang on besides the part itself."""
    if examined.bounds(other).low[Axis.HIGH] <= examined.piece.overall.low[Axis.HIGH] + 1.0:
        return True
    joints = examined.joints_of.get(other, ())
    if any({j.first, j.second} - {other, carried} for j in joints):
        return True
    contacts = examined.piece.contacts
    return any(other in (c.part, c.other) and {c.part, c.other} - {other, carried} for c in contacts)


def _span(box: Box, supports: list[tuple[PartName, Box]], axis: Axis) -> Span | None:
    lines = _lines(box, supports, axis)
    if len(lines) < 2 or _lies_along(box, supports, axis):
        return None
    pairs = list(pairwise(lines))
    widest = max(pairs, key=lambda pair: pair[1].low - pair[0].high)
    return Span(axis, max(widest[1].low - widest[0].high, 0.0), widest)


def _overhang(box: Box, supports: list[tuple[PartName, Box]], axis: Axis) -> Span | None:
    lines = _lines(box, supports, axis)
    if len(lines) < 2:
        return None
    ends = (lines[0].low - box.low[axis], box.high[axis] - lines[-1].high)
    return Span(axis, max(ends), (lines[0], lines[-1]), overhang=True)


def _lies_along(box: Box, supports: list[tuple[PartName, Box]], axis: Axis) -> bool:
    """Whether a narrow stick lies on, or is fixed to, something along most of its length."""
    cross = Axis.DEEP if axis == Axis.WIDE else Axis.WIDE
    narrow = box.size(cross) <= STICK
    return narrow and any(area.size(axis) > RUNS_ALONG * box.size(axis) for _, area in supports)


def _lines(box: Box, supports: list[tuple[PartName, Box]], axis: Axis) -> list[Line]:
    cross = Axis.DEEP if axis == Axis.WIDE else Axis.WIDE
    across = [s for s in supports if _lies_across(s[1], box, axis, cross)]
    clusters: list[list[tuple[PartName, Box]]] = []
    for support in sorted(across, key=lambda s: (s[1].low[axis], s[0])):
        if clusters and support[1].low[axis] <= max(b.high[axis] for _, b in clusters[-1]) + 1.0:
            clusters[-1].append(support)
        else:
            clusters.append([support])
    return [_line(c, axis) for c in clusters if _reach(c, cross) >= ACROSS_ENOUGH * box.size(cross)]


def _lies_across(area: Box, box: Box, axis: Axis, cross: Axis) -> bool:
    """Whether a meeting crosses the span, or is a spot on it, rather than running beside it."""
    return area.size(axis) <= max(1.2 * area.size(cross), SPOT * box.size(axis))


def _reach(cluster: list[tuple[PartName, Box]], cross: Axis) -> float:
    return max(b.high[cross] for _, b in cluster) - min(b.low[cross] for _, b in cluster)


def _line(cluster: list[tuple[PartName, Box]], axis: Axis) -> Line:
    low = min(b.low[axis] for _, b in cluster)
    high = max(b.high[axis] for _, b in cluster)
    return Line(low, high, tuple(dict.fromkeys(name for name, _ in cluster)))
