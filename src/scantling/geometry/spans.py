"""Stretches of straight lines on the paper: joined where they go on, left out where already drawn."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import hypot

from scantling.geometry.drawing import Segment, Segments
from scantling.piece.model import PartName

Span = tuple[int, Segment]  # number of the part, and the segment
JOIN = 0.02  # mm: ends nearer than this go on; lines nearer than this are one
Line = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a line from `start` to `stop` along (`x`, `y`), `off` to its left."""

    start: float
    stop: float
    part: int
    x: float
    y: float
    off: float

    def between(self, start: float, stop: float) -> Span:
        x, y, off = self.x, self.y, self.off
        u, v = -y * off, x * off
        return self.part, (u + start * x, v + start * y, u + stop * x, v + stop * y)


def joined_spans(spans: list[Span]) -> list[Span]:
    """Each stretch of a line once: where two parts share it, the part named first keeps it."""
    out: list[Span] = []
    for stretches in _on_lines(spans).values():
        out += _swept(sorted(stretches, key=lambda s: (s.start, s.part, s.stop)))
    return out


def uncovered(spans: list[Span], cover: list[Span]) -> list[Span]:
    """What of `spans` no span of `cover` lies on."""
    covering = _on_lines(cover)
    out: list[Span] = []
    for line, stretches in _on_lines(spans).items():
        covers = sorted((s.start, s.stop) for s in covering.get(line, ()))
        for stretch in stretches:
            out += _rest(stretch, covers)
    return out


def by_part(spans: list[Span], names: list[PartName]) -> dict[PartName, Segments]:
    """The segments of each part, parts in their own order."""
    groups: dict[int, list[Segment]] = defaultdict(list)
    for order, segment in spans:
        groups[order].append(segment)
    return {names[order]: tuple(groups[order]) for order in sorted(groups)}


def _on_lines(spans: list[Span]) -> dict[Line, list[Stretch]]:
    lines: dict[Line, list[Stretch]] = defaultdict(list)
    for part, (u1, v1, u2, v2) in spans:
        long = hypot(u2 - u1, v2 - v1)
        x, y = (u2 - u1) / long, (v2 - v1) / long
        if x < -1e-6 or (abs(x) <= 1e-6 and y < 0):
            x, y = -x, -y
        off = x * v1 - y * u1
        # The odd shift keeps sizes that people choose away from the border between two steps.
        line = (round(x * 1e4), round(y * 1e4), round(off / JOIN + 0.1037))
        a, b = u1 * x + v1 * y, u2 * x + v2 * y
        lines[line].append(Stretch(min(a, b), max(a, b), part, x, y, off))
    return lines


def _swept(stretches: list[Stretch]) -> list[Span]:
    out: list[Span] = []
    current: Stretch | None = None
    start = stop = 0.0
    for s in stretches:
        if current is None or s.start > stop + JOIN:
            if current is not None:
                out.append(current.between(start, stop))
            current, start, stop = s, s.start, s.stop
        elif s.stop > stop + JOIN and s.part != current.part:
            out.append(current.between(start, stop))
            current, start, stop = s, stop, s.stop
        else:
            stop = max(stop, s.stop)
    if current is not None:
        out.append(current.between(start, stop))
    return out


def _rest(stretch: Stretch, covers: list[tuple[float, float]]) -> list[Span]:
    out = []
    at = stretch.start
    for start, stop in covers:
        if start > at + JOIN and at < stretch.stop - JOIN:
            out.append(stretch.between(at, min(start, stretch.stop)))
        at = max(at, stop)
        if at >= stretch.stop - JOIN:
            return out
    out.append(stretch.between(at, stretch.stop))
    return out
