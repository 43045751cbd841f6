"""What joints and hardware put on parts: holes, cuts, additions, trims. Part's own frame, mm."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from scantling.piece.model import Box, Face, Notice, Part, PartName, Piece, Vec3


@dataclass(frozen=True, slots=True)
class Hole:
    """A drilled hole: centre of its mouth on the surface, unit direction into the wood.

    `deep`: to full diameter; `through`: comes out the other side. `purpose`: dowel, pilot,
    clearance, countersink, counterbore, pocket, bolt, nut, pin, cup, cord, screw, tenon.
    `owner`: joint id or hardware name or "work".
    """

    at: Vec3
    direction: Vec3
    diameter: float
    deep: float
    purpose: str
    owner: str
    through: bool = False


@dataclass(frozen=True, slots=True)
class Cut:
    """A block removed. `kind`: mortise, groove, dado, rabbet, notch, lap, slot, socket, tail gap.

    `face`: the face it is cut from. `round_ends`: for slots and routed mortises; the ends are half
    circles in the plane of `face`, across the shorter of its two sides.
    """

    box: Box
    face: Face
    kind: str
    owner: str
    round_ends: bool = False


@dataclass(frozen=True, slots=True)
class Addition:
    """Wood that goes into another part, beyond the visible box: tenon, haunch, tongue, finger.

    `face`: the face it stands out of. With a `diameter` it is a round tenon in the middle of `box`,
    along `direction` (unit, out of the part) where it leans with the part, else along the face's normal;
    its root is the middle of the box's side that lies on the part.
    """

    box: Box
    face: Face
    kind: str
    owner: str
    diameter: float | None = None  # round tenon
    direction: Vec3 | None = None


@dataclass(frozen=True, slots=True)
class Prism:
    """A straight-sided block: `profile` polygon (u, v) in the plane across `along`, low to high.

    (u, v) are the two axes other than `along`, in axis order. For dovetails, mitres, bevels.
    """

    along: int
    low: float
    high: float
    profile: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Shaped:
    """A prism added (`adds`) or removed from a part."""

    prism: Prism
    face: Face
    kind: str
    owner: str
    adds: bool = False


@dataclass(frozen=True, slots=True)
class Trim:
    """An end cut by a plane: everything of the body on the side the unit `normal` points to is removed.

    The body is the visible (shaped) box, carried on at that end as far as the plane needs (a long mitre,
    a bevelled end; `MachinedPart.cut_box` holds it). Tenons, tongues and tails stand beyond the cut:
    a shoulder is trimmed, what goes in is not.
    """

    point: Vec3
    normal: Vec3
    face: Face
    owner: str


@dataclass(frozen=True, slots=True)
class Cope:
    """An end fitted to a round face: the shaped solid of `other` is taken out of the body."""

    face: Face
    other: PartName
    owner: str


Feature = Hole | Cut | Addition | Shaped | Trim | Cope


@dataclass(frozen=True, slots=True)
class HardwareUse:
    """Fittings a joint or hardware line uses. `owner`: joint id or hardware name.

    `kind` in the shop's words ("dowel", "wood screw", "side slide"), `size` as said ("3/8 x 2").
    `sizes` in mm (diameter, length); `at`: where, piece's frame; `slots`: travel wanted [mm] or None.
    """

    kind: str
    size: str
    count: int
    owner: str
    parts: tuple[PartName, ...] = ()
    sizes: tuple[tuple[str, float], ...] = ()
    at: tuple[Vec3, ...] = ()
    item: str | None = None
    fixed: bool = True  # False: may slide across the grain
    travel: float | None = None  # how far it can slide either way [mm]


@dataclass(frozen=True, slots=True)
class MachinedPart:
    """A part with everything cut in it and added to it.

    `cut_box` is the box of the wood before any cutting away: visible box, additions, and ends carried on
    for a mitre or a slanting or coped shoulder; its size along the grain is the overall length.
    `core_box`: smaller than `cut_box` where a lipping is glued on.
    """

    part: Part
    cut_box: Box
    holes: tuple[Hole, ...] = ()
    cuts: tuple[Cut, ...] = ()
    additions: tuple[Addition, ...] = ()
    shaped: tuple[Shaped, ...] = ()
    trims: tuple[Trim, ...] = ()
    copes: tuple[Cope, ...] = ()
    core_box: Box | None = None

    @property
    def name(self) -> PartName:
        return self.part.name

    @property
    def overall_length(self) -> float:
        return self.cut_box.size(self.part.grain)

    @property
    def true_overall_length(self) -> float:
        """The overall length along a leaning stick, what goes into joints included. [mm]"""
        return self.overall_length * self.part.true_ratio


@dataclass(frozen=True, slots=True)
class JointLayout:
    """What the layout of one joint decided, in numbers and words for the part sheets.

    `numbers`: e.g. ("count", 3), ("diameter", 9.525), ("spacing", 76.2). `text`: one line a maker reads.
    `glued_area`: mm².  `rests_on_rule`: source of the rule used.
    """

    joint: str
    method: str
    text: str
    numbers: tuple[tuple[str, float], ...] = ()
    glued_area: float = 0.0
    source: str = ""


@dataclass(frozen=True)
class MachinedPiece:
    piece: Piece
    parts: tuple[MachinedPart, ...]
    layouts: tuple[JointLayout, ...] = ()
    hardware: tuple[HardwareUse, ...] = ()
    notices: tuple[Notice, ...] = ()

    @cached_property
    def by_name(self) -> dict[PartName, MachinedPart]:
        return {part.name: part for part in self.parts}
