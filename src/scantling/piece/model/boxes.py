"""The frame a maker stands in front of: axes, faces, boxes and placements. All lengths mm.

Zero is the left front corner at the floor. WIDE runs left to right, DEEP front to back,
HIGH floor to top: a right-handed frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, IntEnum

TOUCH = 0.05  # mm: the one tolerance for "these faces meet"

Vec3 = tuple[float, float, float]
Matrix3 = tuple[Vec3, Vec3, Vec3]


class Axis(IntEnum):
    WIDE = 0
    DEEP = 1
    HIGH = 2

    @property
    def word(self) -> str:
        return _AXIS_WORDS[self]


_AXIS_WORDS = ("wide", "deep", "high")


class Face(Enum):
    """A face of a box: its axis and whether it is the low (-1) or the high (+1) side."""

    LEFT = (Axis.WIDE, -1)
    RIGHT = (Axis.WIDE, 1)
    FRONT = (Axis.DEEP, -1)
    BACK = (Axis.DEEP, 1)
    BOTTOM = (Axis.HIGH, -1)
    TOP = (Axis.HIGH, 1)

    def __init__(self, axis: Axis, sign: int) -> None:
        self.axis = axis
        self.sign = sign
        along = [0.0, 0.0, 0.0]
        along[axis] = float(sign)
        self.normal: Vec3 = (along[0], along[1], along[2])

    @property
    def opposite(self) -> Face:
        return _FACES[self.axis, -self.sign]

    @property
    def word(self) -> str:
        return self.name.lower()


def face_of(axis: Axis, sign: int) -> Face:
    """The face on the low (-1) or high (+1) side of an axis."""
    return _FACES[axis, sign]


_FACES = {(face.axis, face.sign): face for face in Face}


@dataclass(frozen=True, slots=True)
class Box:
    """An axis-aligned box; `low` and `high` are opposite corners. [mm]"""

    low: Vec3
    high: Vec3

    def size(self, axis: Axis) -> float:
        return self.high[axis] - self.low[axis]

    @property
    def sizes(self) -> Vec3:
        return (self.size(Axis.WIDE), self.size(Axis.DEEP), self.size(Axis.HIGH))

    @property
    def centre(self) -> Vec3:
        a, b = self.low, self.high
        return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)

    @property
    def volume(self) -> float:
        wide, deep, high = self.sizes
        return wide * deep * high

    def face(self, face: Face) -> float:
        """Where that face lies along its own axis."""
        return (self.low if face.sign < 0 else self.high)[face.axis]

    def with_span(self, axis: Axis, low: float, high: float) -> Box:
        lows, highs = list(self.low), list(self.high)
        lows[axis], highs[axis] = low, high
        return Box((lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2]))

    def intersection(self, other: Box) -> Box | None:
        """The common box, also when it is flat; None where the boxes are apart."""
        (a0, a1, a2), (b0, b1, b2) = self.low, other.low
        (a3, a4, a5), (b3, b4, b5) = self.high, other.high
        low = (max(a0, b0), max(a1, b1), max(a2, b2))
        high = (min(a3, b3), min(a4, b4), min(a5, b5))
        if high[0] < low[0] - TOUCH or high[1] < low[1] - TOUCH or high[2] < low[2] - TOUCH:
            return None
        return Box(low, high)


IDENTITY: Matrix3 = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True)
class Placement:
    """A rigid motion from a part's own frame to the piece's: first turn, then shift."""

    turn: Matrix3 = IDENTITY
    shift: Vec3 = (0.0, 0.0, 0.0)

    def point(self, p: Vec3) -> Vec3:
        turned = self.direction(p)
        return (turned[0] + self.shift[0], turned[1] + self.shift[1], turned[2] + self.shift[2])

    def direction(self, d: Vec3) -> Vec3:
        rows = self.turn
        return (
            rows[0][0] * d[0] + rows[0][1] * d[1] + rows[0][2] * d[2],
            rows[1][0] * d[0] + rows[1][1] * d[1] + rows[1][2] * d[2],
            rows[2][0] * d[0] + rows[2][1] * d[1] + rows[2][2] * d[2],
        )

    @property
    def is_identity(self) -> bool:
        return self == Placement()
