"""The resolved piece: what everything after `resolve` works on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from scantling.errors import Place
from scantling.piece.model.boxes import Box
from scantling.piece.model.joints import Contact, Joint
from scantling.piece.model.material import Material
from scantling.piece.model.moving import Movement, Pose
from scantling.piece.model.parts import Part, PartName
from scantling.piece.model.record import NO_RECORD, BuildRecord
from scantling.piece.model.setting import Coats, Hardware, Hold, Load, Room, Space
from scantling.quantity.kinds import Kind, LengthUnit


@dataclass(frozen=True, slots=True)
class Range:
    """`low` to `high` by `step` (None: any value); `wish` is "least", "most", "free" or None."""

    low: float
    high: float
    step: float | None
    wish: str | None


@dataclass(frozen=True, slots=True)
class NamedSize:
    """A named size of the piece; overall sizes are named "overall wide", "overall deep", ..."""

    name: str
    value: float
    kind: Kind
    text: str
    place: Place
    range: Range | None = None


@dataclass(frozen=True, slots=True)
class NamedChoice:
    """`free`: the maker wrote `any of …`, so the tool may take whichever option does best."""

    name: str
    taken: str
    options: tuple[str, ...]
    place: Place
    free: bool = False


@dataclass(frozen=True, slots=True)
class Notice:
    """Something resolve noticed that is not an error: a finding for `checks` to carry.

    `code` is a short plain word group: "usual size assumed", "sheet part of bare number",
    "lost contact", "unexplained overlap", "touch without joint", "gap left by a fixed part".
    `must` marks those that stop a build.
    """

    code: str
    message: str
    place: Place | None
    parts: tuple[PartName, ...] = ()
    number: float | None = None
    remedy: str = ""
    must: bool = False


@dataclass(frozen=True)
class Piece:
    """Immutable; everything in mm, degrees and kg in the frame of the maker who stands before it.

    `record`: the build record, its parts by their full names; what must be made again has no size there.
    """

    name: str
    unit: LengthUnit
    overall: Box
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...] = ()
    contacts: tuple[Contact, ...] = ()
    sizes: tuple[NamedSize, ...] = ()
    choices: tuple[NamedChoice, ...] = ()
    materials: tuple[Material, ...] = ()
    spaces: tuple[Space, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    movements: tuple[Movement, ...] = ()
    poses: tuple[Pose, ...] = ()
    holds: tuple[Hold, ...] = ()
    loads: tuple[Load, ...] = ()
    room: Room = Room()
    finish: tuple[Coats, ...] = ()
    notices: tuple[Notice, ...] = ()
    note: str = ""
    record: BuildRecord = NO_RECORD

    @cached_property
    def part_by_name(self) -> dict[PartName, Part]:
        return {part.name: part for part in self.parts}

    def part(self, name: PartName) -> Part:
        return self.part_by_name[name]

    def size(self, name: str) -> NamedSize:
        return next(size for size in self.sizes if size.name == name)
