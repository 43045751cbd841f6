"""The frame a part is drawn in: along its grain, across it, and toward the eye.

`along` runs from the datum end "0", `up` across the width, `toward` = along x up. A leaning stick is
drawn along its own axis, so that its sizes are true.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, atan2, degrees, sqrt

from scantling.geometry import View
from scantling.joinery.features import MachinedPart
from scantling.packet.canvas import Point
from scantling.piece.model import Axis, Face, Part, Vec3, face_of


@dataclass(frozen=True)
class PartFrame:
    """Unit vectors in the piece's frame; `origin` is the datum corner there.

    `faces`: the part's own faces, as (datum end, far end, lower edge, upper edge, far face, near face).
    `true`: (length, width, thickness) before any cutting away. [mm]
    """

    origin: Vec3
    along: Vec3
    up: Vec3
    toward: Vec3
    faces: tuple[Face, Face, Face, Face, Face, Face]
    true: Vec3

    @property
    def names(self) -> dict[Face, str]:
        """What each face of the part is called on its sheet: "end 0 (bottom)"."""
        words = ("end 0", "far end", "lower edge", "upper edge", "far face", "near face")
        return {face: f"{word} ({face.word})" for face, word in zip(self.faces, words, strict=True)}

    @property
    def main(self) -> View:
        return View("main", self.along, self.up, self.toward)

    @property
    def below(self) -> View:
        """The lower edge, drawn under the main view, as third angle puts it."""
        return View("below", self.along, self.toward, _scaled(self.up, -1))

    @property
    def far_end(self) -> View:
        return View("far end", _scaled(self.toward, -1), self.up, self.along)

    @property
    def datum_end(self) -> View:
        return View("end 0", self.toward, self.up, _scaled(self.along, -1))

    def place(self, point: Vec3) -> Vec3:
        """A point of the piece as (from end 0, from the lower edge, from the far face). [mm]"""
        offset = (point[0] - self.origin[0], point[1] - self.origin[1], point[2] - self.origin[2])
        return (dot(offset, self.along), dot(offset, self.up), dot(offset, self.toward))

    def way(self, direction: Vec3) -> Vec3:
        return (dot(direction, self.along), dot(direction, self.up), dot(direction, self.toward))

    def shift(self, view: View) -> Point:
        """Where the datum corner lands in a view."""
        return view.project(self.origin)


def frame_of(machined: MachinedPart) -> PartFrame:
    """The frame that shows the face with most work on it."""
    part = machined.part
    grain, across = part.grain, part.width_axis
    sign = _side_with_most_work(machined, grain, across)
    along, up = _unit(grain, 1), _unit(across, sign)
    toward = cross(along, up)
    box = machined.cut_box
    corner = _corner(box.low, box.high, (along, up, toward))
    ends = (face_of(grain, -1), face_of(grain, 1), face_of(across, -sign), face_of(across, sign))
    near = face_of(part.thickness_axis, 1 if toward[part.thickness_axis] > 0 else -1)
    turn = _lean_turn(part)
    middle = part.box.centre
    origin = part.placement.point(_about(corner, middle, turn))
    placed = tuple(part.placement.direction(_turned(v, turn)) for v in (along, up, toward))
    true = (box.size(grain), box.size(across), box.size(part.thickness_axis))
    faces = (*ends, near.opposite, near)
    return PartFrame(origin, placed[0], placed[1], placed[2], faces, true)


def dot(a: Vec3, b: Vec3) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec3, b: Vec3) -> Vec3:
    """Vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


@dataclass(frozen=True, slots=True)
class LeanAngles:
    """A leaning stick in numbers, degrees and mm (piece-language, 2.5).

    `sideways`, `front_back`: the two angles seen square on; `resultant` the true lean; `sight_line`: the
    way it leans, measured from the side-to-side axis; `length` the true length along the axis.
    """

    sideways: float
    front_back: float
    resultant: float
    sight_line: float
    length: float


def lean_angles(part: Part) -> LeanAngles | None:
    """The angles of a leaning part; None when it stands straight."""
    lean = part.shape.lean
    if lean is None or not any(lean.shift):
        return None
    rise, (wide, deep) = part.box.size(Axis.HIGH), lean.shift
    out = sqrt(wide * wide + deep * deep)
    return LeanAngles(
        degrees(atan2(abs(wide), rise)),
        degrees(atan2(abs(deep), rise)),
        degrees(atan2(out, rise)),
        degrees(atan2(abs(deep), abs(wide))),
        sqrt(rise * rise + out * out),
    )


def _side_with_most_work(machined: MachinedPart, grain: Axis, across: Axis) -> int:
    plus = cross(_unit(grain, 1), _unit(across, 1))
    faces = [cut.face for cut in machined.cuts] + [shaped.face for shaped in machined.shaped]
    score = 2 * sum(dot(face.normal, plus) for face in faces)
    score -= sum(dot(hole.direction, plus) for hole in machined.holes if not hole.through)
    return -1 if score < -1e-9 else 1


def _unit(axis: int, sign: int) -> Vec3:
    values = [0.0, 0.0, 0.0]
    values[axis] = float(sign)
    return (values[0], values[1], values[2])


def _scaled(v: Vec3, by: float) -> Vec3:
    return (v[0] * by, v[1] * by, v[2] * by)


def _corner(low: Vec3, high: Vec3, vectors: tuple[Vec3, Vec3, Vec3]) -> Vec3:
    """The corner of the box that lies at the start of all three vectors."""
    pick = [sum(vector[axis] for vector in vectors) > 0 for axis in range(3)]
    corner = [low[axis] if pick[axis] else high[axis] for axis in range(3)]
    return (corner[0], corner[1], corner[2])


Turn = tuple[Vec3, Vec3, Vec3]
_NO_TURN: Turn = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def _lean_turn(part: Part) -> Turn:
    """The shortest turn from upright to the axis of a leaning stick (rows of the matrix)."""
    lean = part.shape.lean
    if lean is None or not any(lean.shift):
        return _NO_TURN
    sign = 1 if lean.end is Face.TOP else -1
    run = (lean.shift[0] * sign, lean.shift[1] * sign, part.box.size(Axis.HIGH))
    norm = sqrt(dot(run, run))
    axis = _scaled(run, 1 / norm)
    return _turn_from_upright(axis)


def _turn_from_upright(to: Vec3) -> Turn:
    """Rodrigues' turn taking (0, 0, 1) to the unit vector `to` (never straight down here)."""
    x, y, z = to
    k = 1 / (1 + z)
    return ((1 - x * x * k, -x * y * k, x), (-x * y * k, 1 - y * y * k, y), (-x, -y, z))


def _turned(v: Vec3, turn: Turn) -> Vec3:
    return (dot(turn[0], v), dot(turn[1], v), dot(turn[2], v))


def _about(point: Vec3, middle: Vec3, turn: Turn) -> Vec3:
    if turn == _NO_TURN:
        return point
    offset = _turned((point[0] - middle[0], point[1] - middle[1], point[2] - middle[2]), turn)
    return (offset[0] + middle[0], offset[1] + middle[1], offset[2] + middle[2])


def angle_between(a: Vec3, b: Vec3) -> float:
    """Degrees between two unit vectors."""
    return degrees(acos(max(-1.0, min(1.0, dot(a, b)))))
