"""Parts as they are after copying: one object, one piece of wood."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from math import hypot

from scantling.errors import Place
from scantling.piece.model.boxes import Axis, Box, Face, Placement
from scantling.piece.model.material import Material
from scantling.piece.model.shape import Shape
from scantling.piece.model.work import Work

PartName = str  # full name in plain words: "left front leg", "drawer 3 left side"


class Rings(Enum):
    FLAT = "flat"
    QUARTER = "quarter"
    RIFT = "rift"


class BuildKind(Enum):
    LAYERS = "layers"
    STAVES = "staves"
    COOPERED = "coopered"
    BRICKS = "bricks"
    BENT = "bent"
    ONE_PIECE = "one piece"


@dataclass(frozen=True, slots=True)
class Built:
    """How the maker restricts the glue-up of a part. Counts are least and most allowed.

    `stacked`: the axis along which layers lie. `edges`/`glue`: how staves meet
    (`tongue`, `none`). `wall`: thickness of a coopered wall [mm]. `courses`: rows of bricks.
    """

    kind: BuildKind
    least: int = 1
    most: int | None = None
    stacked: Axis | None = None
    edges: str = "glue"
    glue: str = "all"
    wall: float | None = None
    courses: int | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One finished wooden component.

    `box` is its visible (butt) size in its own frame; `placement` takes that frame to the piece's
    (identity except for tilted parts and ring copies at an angle).
    `definition` is the key it was written under, with the kit's use before it (`drawer/side`):
    copies share it. `mirrored`: an odd number of reflections from the definition.
    `moved_by`: names of the copies' words, e.g. ("left", "front") or ("2",).
    """

    name: PartName
    definition: str
    box: Box
    material: Material
    grain: Axis
    place: Place
    placement: Placement = Placement()
    rings: Rings = Rings.FLAT
    shape: Shape = Shape()
    work: tuple[Work, ...] = ()
    built: Built | None = None
    show: frozenset[Face] | None = None
    mirrored: bool = False
    copy_words: tuple[str, ...] = ()
    groups: tuple[str, ...] = ()
    fixed: bool = False  # already cut: its size comes from the build record
    note: str = ""

    def size(self, axis: Axis) -> float:
        return self.box.size(axis)

    @property
    def length(self) -> float:
        """Along the grain, between shoulders. [mm]"""
        return self.box.size(self.grain)

    @property
    def true_ratio(self) -> float:
        """How much longer a leaning stick is, along itself, than it stands high; 1 where none leans."""
        lean = self.shape.lean
        if lean is None or self.grain is not Axis.HIGH:
            return 1.0
        return hypot(1.0, *(shift / self.length for shift in lean.shift))

    @property
    def thickness_axis(self) -> Axis:
        """The thinner of the two axes across the grain."""
        return min((a for a in Axis if a != self.grain), key=lambda a: (round(self.box.size(a), 3), a))

    @property
    def width_axis(self) -> Axis:
        return next(a for a in Axis if a not in (self.grain, self.thickness_axis))

    @property
    def thickness(self) -> float:
        return self.box.size(self.thickness_axis)

    @property
    def width(self) -> float:
        return self.box.size(self.width_axis)
