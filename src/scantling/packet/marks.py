"""What must be marked out on a part: groups of equal holes, cuts, shoulders; with letters and places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import acos, atan2, degrees
from string import ascii_lowercase, ascii_uppercase

from scantling.joinery.features import Hole, MachinedPart, Shaped
from scantling.packet.frames import PartFrame, angle_between, dot
from scantling.piece.model import Axis, Box, Face, Placement, Vec3, face_of

_ON_FACE = 0.1  # mm
_GRAZING = 0.05  # of a unit vector: less runs along a face, not into it


@dataclass(frozen=True, slots=True)
class HoleGroup:
    """Equal holes from one face. `places`: (from end 0, from lower edge, from far face) of each mouth. [mm]

    `way`: direction into the wood in the same frame; `slant`: degrees off square to the face.
    """

    letter: str
    face: Face
    diameter: float
    deep: float
    through: bool
    purpose: str
    owner: str
    way: Vec3
    slant: float
    places: tuple[Vec3, ...]


@dataclass(frozen=True, slots=True)
class CutMark:
    """A block cut out or a shoulder, as low and high places in the part's drawing frame. [mm]

    One that does not lie square in a leaning part keeps its own sizes, laid about the middle of its mouth
    (of its root, where it adds): `turned`: degrees its sides stand off the part's edges, in the face;
    `slant`: degrees it goes in off square to the face.
    """

    letter: str
    kind: str
    face: Face
    owner: str
    low: Vec3
    high: Vec3
    adds: bool = False
    turned: float = 0.0
    slant: float = 0.0

    @property
    def middle(self) -> Vec3:
        a, b = self.low, self.high
        return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)

    def size(self, axis: int) -> float:
        return self.high[axis] - self.low[axis]


def hole_groups(part: MachinedPart, frame: PartFrame) -> tuple[HoleGroup, ...]:
    """Holes alike in face, size, purpose and owner, each group under a small letter."""
    groups: dict[tuple[object, ...], list[Hole]] = {}
    for hole in part.holes:
        groups.setdefault(_hole_key(hole), []).append(hole)
    ordered = sorted(groups.values(), key=lambda holes: min(frame.place(_placed(part, h.at)) for h in holes))
    return tuple(_group(_letter(n, ascii_lowercase), part, frame, holes) for n, holes in enumerate(ordered))


@dataclass(frozen=True, slots=True)
class _Block:
    """What is cut out of a part or stands out of it; `along`: unit vector it follows where it leans."""

    kind: str
    face: Face
    owner: str
    box: Box
    adds: bool
    along: Vec3 | None = None


def cut_marks(part: MachinedPart, frame: PartFrame) -> tuple[CutMark, ...]:
    """Mortises, grooves, tenons and the rest. Cuts in a row across the part share a capital letter."""
    blocks = [_Block(c.kind, c.face, c.owner, c.box, adds=False) for c in part.cuts]
    blocks += [_Block(a.kind, a.face, a.owner, a.box, True, a.direction) for a in part.additions]
    blocks += [_Block(s.kind, s.face, s.owner, _prism_box(s), s.adds) for s in part.shaped]
    marks = sorted(
        (_cut(part, frame, block) for block in dict.fromkeys(blocks)), key=lambda m: (m.low, m.high)
    )
    letters: dict[tuple[object, ...], str] = {}
    for mark in marks:
        letters.setdefault(_row_key(mark), _letter(len(letters), ascii_uppercase))
    return tuple(replace(mark, letter=letters[_row_key(mark)]) for mark in marks)


def _row_key(mark: CutMark) -> tuple[object, ...]:
    """What cuts of one row have in common: all but their places across the part."""
    ends = (mark.low[0], mark.high[0], mark.low[2], mark.high[2])
    return (mark.kind, mark.face, mark.owner, mark.adds, *(round(end, 1) for end in ends))


def is_even_run(places: Sequence[float]) -> bool:
    """Five or more places in rising order with equal spaces, to 0.1 mm."""
    steps = [b - a for a, b in pairwise(places)]
    return len(places) >= 5 and steps[0] > 0.1 and max(steps) - min(steps) < 0.1


def _hole_key(hole: Hole) -> tuple[object, ...]:
    way = tuple(round(v, 3) for v in hole.direction)
    return (way, round(hole.diameter, 2), round(hole.deep, 1), hole.through, hole.purpose, hole.owner)


def _group(letter: str, part: MachinedPart, frame: PartFrame, holes: Sequence[Hole]) -> HoleGroup:
    first = holes[0]
    face = _mouth_face(part, first)
    inward = (-face.normal[0], -face.normal[1], -face.normal[2])
    return HoleGroup(
        letter=letter,
        face=face,
        diameter=first.diameter,
        deep=first.deep,
        through=first.through,
        purpose=first.purpose,
        owner=first.owner,
        way=frame.way(part.part.placement.direction(first.direction)),
        slant=angle_between(inward, first.direction),
        places=tuple(sorted(frame.place(_placed(part, hole.at)) for hole in holes)),
    )


def _mouth_face(part: MachinedPart, hole: Hole) -> Face:
    """The face a hole's mouth lies on; where it lies on none (a leaning part), the one it enters squarest."""
    box = part.part.box
    entered = [face for face in Face if dot(face.normal, hole.direction) < -_GRAZING]
    on = [face for face in entered if abs(hole.at[face.axis] - box.face(face)) < _ON_FACE]
    return max(on or Face, key=lambda face: -dot(face.normal, hole.direction))


def _cut(part: MachinedPart, frame: PartFrame, block: _Block) -> CutMark:
    """The block's own sizes about the middle of its mouth, each along the drawing's nearest axis."""
    face, box = block.face, block.box
    inward = face if block.adds else face.opposite
    mouth = list(box.centre)
    mouth[face.axis] = box.face(inward.opposite)
    ways = [frame.way(part.part.placement.direction(face_of(axis, 1).normal)) for axis in Axis]
    into = frame.way(part.part.placement.direction(block.along or inward.normal))
    deep = box.size(face.axis) / (abs(block.along[face.axis]) if block.along else 1.0)
    low = list(frame.place(_placed(part, (mouth[0], mouth[1], mouth[2]))))
    high = list(low)
    for axis in Axis:
        if axis is not face.axis:
            to, half = _nearest(ways[axis]), box.size(axis) / 2
            low[to], high[to] = low[to] - half, high[to] + half
    to = _nearest(into)
    low[to], high[to] = sorted((low[to], low[to] + (deep if into[to] > 0 else -deep)))
    long = max((axis for axis in Axis if axis is not face.axis), key=box.size)
    return CutMark(
        letter="",
        kind=block.kind,
        face=face,
        owner=block.owner,
        low=(low[0], low[1], low[2]),
        high=(high[0], high[1], high[2]),
        adds=block.adds,
        turned=0.0 if block.along else _turned(ways[long], to),
        slant=degrees(acos(min(1.0, abs(into[to])))),
    )


def _nearest(way: Vec3) -> int:
    """The axis a direction lies nearest to."""
    return max(range(3), key=lambda axis: abs(way[axis]))


def _turned(way: Vec3, into: int) -> float:
    """How far a direction stands off the nearest edge, seen along the axis `into`. [degrees]"""
    less, more = sorted(abs(way[axis]) for axis in range(3) if axis != into)
    return degrees(atan2(less, more))


def _prism_box(shaped: Shaped) -> Box:
    prism = shaped.prism
    us, vs = [u for u, _ in prism.profile], [v for _, v in prism.profile]
    lows, highs = [min(us), min(vs)], [max(us), max(vs)]
    lows.insert(prism.along, prism.low)
    highs.insert(prism.along, prism.high)
    return Box((lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2]))


def _placed(part: MachinedPart, point: Vec3) -> Vec3:
    placement: Placement = part.part.placement
    return placement.point(point)


def _letter(index: int, letters: str) -> str:
    """a, b, … z, aa, ab, …"""
    more, rest = divmod(index, len(letters))
    return (_letter(more - 1, letters) if more else "") + letters[rest]
