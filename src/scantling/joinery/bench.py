"""What a layout may ask: the piece round the joint, the sizes on hand, seasonal movement, words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache

from scantling.joinery import rules
from scantling.joinery.meeting import Meeting, end_faces, is_solid, touches_end
from scantling.joinery.spread import snapped
from scantling.piece.methods import METHODS
from scantling.piece.methods import Meeting as Meets
from scantling.piece.model import Axis, Face, Part, PartName, Piece, Vec3
from scantling.quantity import MM_PER_INCH, LengthUnit, Style, dual, format_length
from scantling.shop.model import HardwareItem, Shop
from scantling.wood import change_across, equilibrium_moisture_content, is_species_name, species_named

_SHOWS_NOT = frozenset({Face.BACK, Face.BOTTOM})  # unless the maker says `show`
_REACH = 1.0  # mm
_ABOUT = 0.6  # mm over half the thickness: 3/8 in is the usual dowel of a sheet that measures 18


@dataclass(frozen=True)
class Bench:
    """`meetings` by joint id. `growth`: how far a part goes into others beyond a face of its box."""

    piece: Piece
    shop: Shop
    meetings: Mapping[str, Meeting]
    growth: Mapping[tuple[PartName, Face], float]

    @property
    def inches(self) -> bool:
        return self.piece.unit is LengthUnit.INCHES

    @cached_property
    def style(self) -> Style:
        return Style(self.piece.unit, self.shop.fraction)

    @property
    def step(self) -> float:
        """What default sizes are rounded to: 1/16 in or 0.5 mm."""
        return MM_PER_INCH / 16 if self.inches else 0.5

    def said(self, mm: float) -> str:
        """A length in both units."""
        return _dual(round(mm, 6), self.style)

    def plain(self, mm: float) -> str:
        """A length in the maker's unit."""
        return _shown(round(mm, 6), self.style).text

    def number(self, mm: float) -> str:
        """A length in the maker's unit, without its name: `3/8`."""
        return _shown(round(mm, 6), self.style).number

    def rounded(self, mm: float) -> float:
        return snapped(mm, self.step)

    def items(self, kind: str) -> Iterable[HardwareItem]:
        return (item for item in self.shop.hardware if item.kind == kind)

    @cached_property
    def dowel_diameters(self) -> tuple[float, ...]:
        """Diameters on hand or for sale, else those the trade sells in the maker's unit; smallest first."""
        shop = {dict(item.sizes).get("diameter", 0.0) for item in self.items("dowel")} - {0.0}
        usual = [row["diameter"] for row in rules.rows("dowels") if bool(row["inch"]) is self.inches]
        return tuple(sorted(shop)) or tuple(usual)

    def dowel_diameter(self, thickness: float) -> float:
        """The largest on hand about half the thickness or less; the smallest if none is so small."""
        half = rules.number("dowel over thickness") * thickness + _ABOUT
        most = rules.row_for("dowel most", "thick", thickness)["diameter"]
        fitting = [d for d in self.dowel_diameters if d <= min(half, most)]
        return fitting[-1] if fitting else self.dowel_diameters[0]

    def dowel_lengths(self, diameter: float) -> tuple[float, ...]:
        """Ready-cut lengths on hand for that diameter; () = cut from the rod."""
        sizes = (dict(item.sizes) for item in self.items("dowel"))
        fit = {s.get("length", 0.0) for s in sizes if abs(s.get("diameter", 0.0) - diameter) < 0.1}
        return tuple(sorted(fit - {0.0}))

    def screw_lengths(self, major: float) -> tuple[float, ...]:
        """Lengths of wood screws the shop lists at that diameter: those of the maker's unit, else all."""
        sizes = (dict(item.sizes) for item in self.items("wood screw"))
        found = {s["length"] for s in sizes if "length" in s and abs(s.get("diameter", 0.0) - major) < 0.2}
        step = MM_PER_INCH / 8 if self.inches else 1.0
        own = {length for length in found if abs(length / step - round(length / step)) < 0.05}
        return tuple(sorted(own or found))

    def is_soft(self, part: Part | None) -> bool:
        """Softwood, or a sheet: takes the smaller pilot."""
        if part is None or not is_solid(part.material):
            return True
        return is_species_name(part.material.species) and species_named(part.material.species).is_softwood

    def travel(self, part: Part, axis: Axis, distance: float) -> float | None:
        """Seasonal change of `distance` across that axis of the part from driest to dampest air. [mm]

        0 along the grain and in sheets; None where the piece says nothing of the room's air or the
        species is not in the tables.
        """
        if axis == part.grain or not is_solid(part.material):
            return 0.0
        if self._moisture is None or not is_species_name(part.material.species):
            return None
        dry, damp = self._moisture
        thickness = axis == part.thickness_axis
        species = species_named(part.material.species)
        return change_across(species, abs(distance), dry, damp, part.rings.value, thickness=thickness)

    @cached_property
    def _moisture(self) -> tuple[float, float] | None:
        """Moisture content of wood in the driest and in the dampest air. [%]"""
        air = self.piece.room.air
        if air is None:
            return None
        dry = equilibrium_moisture_content(air.temperature, air.dry)
        return dry, equilibrium_moisture_content(air.temperature, air.damp)

    @cached_property
    def _meetings_of(self) -> dict[PartName, tuple[Meeting, ...]]:
        found: dict[PartName, list[Meeting]] = {}
        for m in self.meetings.values():
            found.setdefault(m.first.name, []).append(m)
            if m.second is not None:
                found.setdefault(m.second.name, []).append(m)
        return {name: tuple(each) for name, each in found.items()}

    def meetings_of(self, part: Part) -> tuple[Meeting, ...]:
        return self._meetings_of.get(part.name, ())

    def grown(self, m: Meeting, axis: Axis) -> tuple[float, float]:
        """How much further than the area the first part's wood runs along `axis`, low and high."""
        low, high = end_faces(axis)
        return (
            self.growth.get((m.first.name, low), 0.0) if touches_end(m.area, m.first.box, low) else 0.0,
            self.growth.get((m.first.name, high), 0.0) if touches_end(m.area, m.first.box, high) else 0.0,
        )

    @cached_property
    def _lengthened(self) -> frozenset[tuple[PartName, Face]]:
        goes_in = (m for m in self.meetings.values() if METHODS[m.joint.method] is Meets.GOES_IN)
        return frozenset((m.first.name, m.face) for m in goes_in)

    def is_lengthened(self, part: PartName, face: Face) -> bool:
        """Whether a joint adds wood beyond that face."""
        return (part, face) in self._lengthened

    def shows(self, part: Part, face: Face, at: Vec3) -> bool:
        """Whether that point of a face is seen: shown, and nothing joined covers it (own frame)."""
        if part.show is not None and face not in part.show:
            return False
        if part.show is None and face in _SHOWS_NOT:
            return False
        return not any(_covers(m, part, face, at) for m in self.meetings_of(part))


def _covers(m: Meeting, part: Part, face: Face, at: Vec3) -> bool:
    if m.first.name == part.name:
        return m.face is face and _inside(m.area.low, m.area.high, at)
    if m.second_face is not face or not m.motion.is_identity:
        return False
    return _inside(m.area.low, m.area.high, at)


def _inside(low: Vec3, high: Vec3, at: Vec3) -> bool:
    return all(l - _REACH <= x <= h + _REACH for l, x, h in zip(low, at, high, strict=True))


_dual = lru_cache(maxsize=4096)(dual)
_shown = lru_cache(maxsize=4096)(format_length)
