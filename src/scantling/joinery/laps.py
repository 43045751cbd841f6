"""Cross lap and notch: the two joints drawn as overlaps."""

from __future__ import annotations

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.features import Cut
from scantling.joinery.frames import face_through, inverse
from scantling.joinery.made import Made, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.piece.model import Axis, Box, Face, face_of


def cross_lap(m: Meeting, bench: Bench) -> Made:
    """Each part loses half of what they share: the first from its high side, the second from its low."""
    common = m.first.box.intersection(m.other)
    if common is None or common.volume <= 0:
        return _apart(m)
    axis = _lap_axis(m, common)
    high, low = face_of(axis, 1), face_of(axis, -1)
    deep = m.settings.deep if m.settings.deep is not None else common.size(axis) / 2
    floor = common.high[axis] - deep
    from_first = common.with_span(axis, floor, m.first.box.high[axis])
    from_second = common.with_span(axis, m.other.low[axis], floor)
    first = Cut(from_first, high, "lap", m.joint.id)
    second = m.second_cut(from_second, "lap", face=low)
    sides = [a for a in Axis if a != axis]
    area = common.size(sides[0]) * common.size(sides[1])
    words = (
        f"cross lap: {bench.said(deep)} out of {m.first.name} from the {high.word}, the rest from the other"
    )
    made = layout(m, words, (("deep", deep),), glued=area, source="geometry: half of what is shared")
    return Made((first,), (second,), made)


def _lap_axis(m: Meeting, common: Box) -> Axis:
    """The axis along which neither part runs; where that is not one axis, the thinnest of the overlap."""
    second = m.second
    grain = face_through(face_of(second.grain, 1), inverse(m.motion)).axis if second else m.first.grain
    free = [a for a in Axis if a not in (m.first.grain, grain)]
    return min(free, key=lambda a: (common.size(a), a))


def notch(m: Meeting, bench: Bench) -> Made:
    """The first part loses what it shares with the second, and `gap` round it."""
    common = m.first.box.intersection(m.other)
    if common is None or common.volume <= 0:
        return _apart(m)
    gap = m.settings.gap or 0.0
    low, high = list(common.low), list(common.high)
    for face in Face:
        axis, ends = face.axis, low if face.sign < 0 else high
        inside = face.sign * (m.first.box.face(face) - common.face(face)) > 0.05
        ends[axis] += face.sign * (gap if inside else bench.growth.get((m.first.name, face), 0.0))
    block = Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    cut = Cut(block, _open(m, common), "notch", m.joint.id)
    words = (
        f"{m.first.name} notched round {m.second.name if m.second else 'the wall'}, {bench.said(gap)} clear"
    )
    source = rules.source("housing fit")
    return Made((cut,), (), layout(m, words, (("gap", gap),), source=source))


def _open(m: Meeting, common: Box) -> Face:
    """A face of the first part to which the notch opens."""
    broad, box = m.first.thickness_axis, m.first.box
    open_faces = (f for f in Face if abs(box.face(f) - common.face(f)) < 0.05 and f.axis != broad)
    return next(open_faces, m.face)


def _apart(m: Meeting) -> Made:
    message = f"a {m.joint.method} needs parts that overlap, and these do not"
    remedy = "let one run on past the other, or use another method"
    found = notice(m, "no overlap", message, remedy=remedy, must=True)
    return Made((), (), layout(m, "nothing to cut"), (), (found,))
