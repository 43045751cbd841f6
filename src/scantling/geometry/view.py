"""From where a picture is taken: parallel projection along one direction."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

from scantling.piece.model import Vec3

Point2 = tuple[float, float]


@dataclass(frozen=True, slots=True)
class View:
    """Unit vectors in the piece's frame: `right` and `up` on the paper, `toward` the eye.

    A point p of the piece lands on the paper at (p·right, p·up) [mm, real size]; of two points
    that land together the one with the larger p·toward is in front.
    """

    name: str
    right: Vec3
    up: Vec3
    toward: Vec3

    @classmethod
    def named(cls, name: str) -> View:
        """`front`, `back`, `left`, `right`, `top`, `bottom`, or `corner` (from the right, above)."""
        if name not in _NAMED:
            raise ValueError(f"there is no view called {name!r}; there are {', '.join(_NAMED)}")
        return _NAMED[name]

    @classmethod
    def turned(cls, azimuth: float, elevation: float, name: str = "turned") -> View:
        """Seen from `azimuth` degrees round to the right of the front and `elevation` degrees above."""
        a, e = radians(azimuth), radians(elevation)
        right = (cos(a), sin(a), 0.0)
        toward = (sin(a) * cos(e), -cos(a) * cos(e), sin(e))
        up = (-sin(a) * sin(e), cos(a) * sin(e), cos(e))
        return cls(name, right, up, toward)

    def project(self, p: Vec3) -> Point2:
        """Where a point of the piece lands on the paper. [mm]"""
        return (_dot(self.right, p), _dot(self.up, p))


def _dot(a: Vec3, b: Vec3) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


_NAMED = {
    "front": View("front", (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0)),
    "back": View("back", (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)),
    "left": View("left", (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (-1.0, 0.0, 0.0)),
    "right": View("right", (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)),
    "top": View("top", (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "bottom": View("bottom", (1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, -1.0)),
    "corner": View.turned(32.0, 24.0, "corner"),
}
