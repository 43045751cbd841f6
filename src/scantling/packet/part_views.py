"""Edges of one part seen square on: along its grain, from below, and from its ends."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from scantling.geometry import Scene, View, line_drawing
from scantling.joinery.features import MachinedPart
from scantling.packet.canvas import Point
from scantling.packet.frames import PartFrame, frame_of
from scantling.piece.model import Face, Vec3

Segment = tuple[Point, Point]


@dataclass(frozen=True)
class Edges:
    """Edges of one view about the datum corner; u to the right, v up. [mm]"""

    visible: tuple[Segment, ...]
    hidden: tuple[Segment, ...]


@dataclass(frozen=True)
class PartViews:
    """The frame a part is measured in and its edges by view: main, below, end 0, far end.

    `size`: (length, width, thickness) of everything drawn. [mm]
    """

    frame: PartFrame
    edges: dict[str, Edges]
    size: Vec3


def part_views(scene: Scene, machined: MachinedPart) -> PartViews:
    """The views a part needs; its datum corner is moved to what is really there (leans, tapers)."""
    frame = frame_of(machined)
    views = _views(machined, frame)
    edges = {view.name: _edges(scene, machined.name, frame, view) for view in views}
    low, high = _reach(edges, frame.true)
    if all(abs(v) < 0.01 for v in low):
        return PartViews(frame, edges, high)
    frame = replace(frame, origin=_moved(frame, low))
    edges = {view.name: _edges(scene, machined.name, frame, view) for view in views}
    size = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    return PartViews(frame, edges, size)


def _views(machined: MachinedPart, frame: PartFrame) -> list[View]:
    """An end is drawn when something is on it; the far end also when nothing is on either."""
    worked = {face for face in Face for hole in machined.holes if _enters(face, hole.direction)}
    worked |= {cut.face for cut in machined.cuts} | {extra.face for extra in machined.additions}
    views = [frame.main, frame.below]
    if frame.faces[0] in worked:
        views.append(frame.datum_end)
    if frame.faces[1] in worked or frame.faces[0] not in worked:
        views.append(frame.far_end)
    return views


def _enters(face: Face, direction: Vec3) -> bool:
    return sum(n * d for n, d in zip(face.normal, direction, strict=True)) < -0.7


def _edges(scene: Scene, name: str, frame: PartFrame, view: View) -> Edges:
    drawing = line_drawing(scene, view, parts=(name,), holes=False)
    du, dv = frame.shift(view)

    def about(segments: Iterable[tuple[float, float, float, float]]) -> tuple[Segment, ...]:
        return tuple(((a - du, b - dv), (c - du, d - dv)) for a, b, c, d in segments)

    return Edges(about(drawing.visible.get(name, ())), about(drawing.hidden.get(name, ())))


def _reach(edges: dict[str, Edges], true: Vec3) -> tuple[Vec3, Vec3]:
    """Low and high of everything drawn, along, up and toward."""
    us = [u for line in edges["main"].visible for u, _ in line] or [0.0, true[0]]
    vs = [v for line in edges["main"].visible for _, v in line] or [0.0, true[1]]
    ws = [v for line in edges["below"].visible for _, v in line] or [0.0, true[2]]
    return (min(us), min(vs), min(ws)), (max(us), max(vs), max(ws))


def _moved(frame: PartFrame, by: Vec3) -> Vec3:
    vectors = (frame.along, frame.up, frame.toward)
    moved = [
        o + sum(b * v[axis] for b, v in zip(by, vectors, strict=True)) for axis, o in enumerate(frame.origin)
    ]
    return (moved[0], moved[1], moved[2])
