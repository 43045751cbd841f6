"""How a copy stands to its definition: mirrored, shifted, turned. Worked one axis at a time, lazily.

A step leads from the frame inside to the frame outside. Only the axis asked for is worked out, so that
the place of a copy along one axis may depend on sizes along another without going round in a circle.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from scantling.piece.model import Axis, Face, Vec3, face_of

Thunk = Callable[[], float]


@dataclass(frozen=True, eq=False)
class Mirror:
    """Reflected along `axis` about the plane at `about()`."""

    axis: Axis
    about: Thunk


@dataclass(frozen=True, eq=False)
class Shift:
    """Moved along `axis` by `by()`."""

    axis: Axis
    by: Thunk


@dataclass(frozen=True)
class Quarter:
    """Turned by quarter turns about zero: outside axis i is `signs[i]` x inside axis `axes[i]`."""

    axes: tuple[Axis, Axis, Axis]
    signs: tuple[int, int, int]


@dataclass(frozen=True, eq=False)
class Swivel:
    """Turned by `angle()` degrees, right-handed, about the line along `axis` through `about()`.

    `what` says how the maker asked for it: "ring" or "tilt".
    """

    axis: Axis
    angle: Thunk
    about: Callable[[], Vec3]
    what: str
    flip: int = 1  # -1: the line points the other way


Step = Mirror | Shift | Quarter | Swivel
Steps = tuple[Step, ...]  # innermost first

FACINGS: dict[str, Quarter] = {
    "right": Quarter((Axis.DEEP, Axis.WIDE, Axis.HIGH), (-1, 1, 1)),
    "left": Quarter((Axis.DEEP, Axis.WIDE, Axis.HIGH), (1, -1, 1)),
    "back": Quarter((Axis.WIDE, Axis.DEEP, Axis.HIGH), (-1, -1, 1)),
    "up": Quarter((Axis.WIDE, Axis.HIGH, Axis.DEEP), (1, 1, -1)),
}


@dataclass(frozen=True, slots=True)
class Along:
    """Outside coordinate = sign x inside coordinate along `axis` + offset."""

    axis: Axis
    sign: int
    offset: float

    def out(self, inside: float) -> float:
        return self.sign * inside + self.offset

    def inside(self, out: float) -> float:
        return self.sign * (out - self.offset)

    def span(self, low: float, high: float) -> tuple[float, float]:
        a, b = self.out(low), self.out(high)
        return (a, b) if a <= b or self.sign > 0 else (b, a)


def axis_inside(steps: Steps, axis: Axis) -> tuple[Axis, int]:
    """Which inside axis an outside axis is, and whether it runs the same way (1) or back (-1)."""
    sign = 1
    for step in reversed(steps):
        if isinstance(step, Quarter):
            sign *= step.signs[axis]
            axis = step.axes[axis]
        elif isinstance(step, Mirror) and step.axis is axis:
            sign = -sign
    return axis, sign


def along(steps: Steps, axis: Axis) -> Along:
    """The whole way from inside to outside along one outside axis."""
    sign, offset = 1, 0.0
    for step in reversed(steps):
        if isinstance(step, Quarter):
            sign *= step.signs[axis]
            axis = step.axes[axis]
        elif isinstance(step, Mirror) and step.axis is axis:
            offset += sign * 2 * step.about()
            sign = -sign
        elif isinstance(step, Shift) and step.axis is axis:
            offset += sign * step.by()
    return Along(axis, sign, offset)


def face_inside(steps: Steps, face: Face) -> Face:
    """The inside face that shows as `face` outside."""
    axis, sign = axis_inside(steps, face.axis)
    return face_of(axis, sign * face.sign)


def face_outside(steps: Steps, face: Face) -> Face:
    """How an inside face shows outside."""
    for outer in Axis:
        axis, sign = axis_inside(steps, outer)
        if axis is face.axis:
            return face_of(outer, sign * face.sign)
    raise AssertionError(face)


def swivel_in(steps: Steps) -> Swivel | None:
    """The outermost turn of other than a quarter, if any."""
    return next((step for step in reversed(steps) if isinstance(step, Swivel)), None)
