"""Joints and contacts, resolved to pairs of parts. Every joint is drawn as a butt."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Place
from scantling.piece.model.boxes import Box, Face
from scantling.piece.model.parts import PartName

WALL = "wall"
FLOOR = "floor"


@dataclass(frozen=True, slots=True)
class Glue:
    """Where a joint is glued: all, none, or a stretch of `length` mm at `where`.

    `where` is "front", "back", "top", "bottom", "left", "right" or "middle".
    """

    extent: str = "all"  # "all" | "none" | "part"
    where: str = ""
    length: float = 0.0


@dataclass(frozen=True, slots=True)
class JointSettings:
    """What a joint line says beyond who and how. None = the method's own rule decides. [mm]"""

    # `3/8 x 2` is (9.525, 50.8); `10 x 3` with a screw gauge is (10.0, 76.2) and gauge=True
    size: tuple[float, ...] = ()
    gauge: bool = False  # size[0] is a screw gauge, not a diameter
    deep: float | None = None
    count: int | None = None
    every: float | None = None
    glue: Glue | None = None
    gap: float | None = None  # left at the bottom of a groove or mortise
    stand_off: float | None = None  # left at the shoulder
    fixed_at: str | None = None  # the line that does not move: "front", "middle", ...
    tails_on: PartName | None = None
    runs: float | None = None  # clearance for a part that slides in the joint
    through: bool = False
    wedge: str | None = None
    extra: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Joint:
    """One pair of parts and how they are held.

    `first` goes into, or is fastened to, `second` (`second` may be WALL or FLOOR).
    `first_face` of `first` meets `second_face` of `second` (faces in each part's own frame).
    `area`: where they meet, a box flat along the meeting axis, piece's frame; for overlaps
    (`cross lap`, `notch`) the common box. None where the faces lean or curve.
    `line`: number of the joint line, shared by the pairs it stands for.
    `wants`: asked-for qualities when the method was left to the tool (then `method` is the one taken).
    """

    id: str
    first: PartName
    second: PartName
    method: str
    first_face: Face | None
    second_face: Face | None
    area: Box | None
    settings: JointSettings
    line: int
    place: Place
    wants: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Contact:
    """An intended contact: a span of `part` ends on a face of `other` with nothing added."""

    part: PartName
    face: Face
    other: PartName
    other_face: Face
    place: Place
