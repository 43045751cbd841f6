"""How a part departs from its box: lean, taper, section, outline. Lengths mm, angles degrees.

All in the part's own frame (see `Part.placement`).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from scantling.piece.model.boxes import Face


class Section(Enum):
    SQUARE = "square"
    ROUND = "round"
    OCTAGON = "octagon"
    OVAL = "oval"
    LEVEL = "level"  # leaning stick whose level cut is true to the box


@dataclass(frozen=True, slots=True)
class Lean:
    """One end of a stick is moved sideways; the other stays in the box.

    `end` is BOTTOM for `foot`, TOP for `head`. `shift` is how far that end's centre moves along
    (wide, deep) [mm, signed]. The ends stay level; `high` stays true.
    Unless the section is LEVEL the stick stays square to its own axis, turned the shortest way.
    """

    end: Face
    shift: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Taper:
    """The section shrinks to `to` at face `end`, beginning at coordinate `start` on the long axis.

    `faces`: the faces that are cut; the opposite ones stay. When both faces of an axis (or none)
    are named the taper is even about the middle. `axes` not named keep their size.
    """

    end: Face
    to: float
    start: float
    faces: frozenset[Face]


class OutlineKind(Enum):
    ROUND = "round"
    OVAL = "oval"
    CORNERS = "corners"  # rounded corners of radius `radius`
    RING = "ring"  # round outside, wall of `radius` thickness
    PATH = "path"


@dataclass(frozen=True, slots=True)
class PathPoint:
    """A corner of an outline, across and up from the lower left as seen.

    `bulge` is how far the line *to* this point rises outward (positive) or inward of its chord.
    """

    across: float
    up: float
    bulge: float = 0.0


@dataclass(frozen=True, slots=True)
class Outline:
    """The silhouette of a board seen facing `seen_from`, filling its box."""

    kind: OutlineKind
    seen_from: Face
    radius: float = 0.0
    path: tuple[PathPoint, ...] = ()


@dataclass(frozen=True, slots=True)
class Shape:
    lean: Lean | None = None
    taper: Taper | None = None
    section: Section = Section.SQUARE
    outline: Outline | None = None

    @property
    def is_box(self) -> bool:
        return self == Shape()
