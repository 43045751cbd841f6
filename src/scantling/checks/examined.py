"""What every check asks about a piece, worked out once: woods, masses, air, joints, bounds, words."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import product
from math import ceil, floor

from scantling.checks.finding import Change
from scantling.geometry import Mass, Scene, mass_of
from scantling.joinery.features import HardwareUse, JointLayout, MachinedPiece
from scantling.piece.model import (
    Axis,
    Box,
    Hardware,
    Hold,
    Joint,
    MaterialKind,
    Movement,
    Part,
    PartName,
    Piece,
    Vec3,
)
from scantling.quantity import MM_PER_INCH, LengthUnit, Style, dual, format_length, format_mass, listed
from scantling.quantity.scanning import KG_PER_POUND
from scantling.shop.model import HardwareItem, Shop
from scantling.wood import (
    Panel,
    Species,
    equilibrium_moisture_content,
    panel_named,
    species_named,
)

GRAVITY = 9.81  # N/kg
NEWTONS_PER_POUND = 4.4482216  # NIST SP 811, Appendix B.8
USUAL_DRY, USUAL_DAMP, USUAL_WARMTH = 0.30, 0.60, 21.0  # a heated house; from memory


@dataclass(frozen=True, slots=True)
class Moistures:
    """Moisture contents wood comes to: at the bench, in the driest and the dampest air. [%]"""

    bench: float
    dry: float
    damp: float
    assumed: bool


@dataclass(frozen=True, eq=False)
class Examined:
    """One machined piece in one shop, as the checks look at it."""

    machined: MachinedPiece
    scene: Scene
    shop: Shop

    @property
    def piece(self) -> Piece:
        return self.machined.piece

    @cached_property
    def mass(self) -> Mass:
        return mass_of(self.scene)

    @cached_property
    def style(self) -> Style:
        return Style(self.piece.unit, self.shop.fraction)

    def length(self, mm: float) -> str:
        """A length in both units, the piece's own first."""
        return dual(mm, self.style)

    def small(self, mm: float) -> str:
        """A small length to 1/64 in, so that a miss by a hair is seen."""
        return dual(mm, Style(self.piece.unit, max(self.shop.fraction, 64)))

    def weight(self, kg: float) -> str:
        """A mass in both units, the piece's own first."""
        return format_mass(kg, self.style)

    def force(self, newtons: float) -> str:
        """A force in both units, the piece's own first: `28 lb (125 N)`."""
        pounds, plain = f"{newtons / NEWTONS_PER_POUND:.0f} lb", f"{newtons:.0f} N"
        return f"{pounds} ({plain})" if self.piece.unit is LengthUnit.INCHES else f"{plain} ({pounds})"

    def moment(self, newton_metres: float) -> str:
        """A turning moment in both units, the piece's own first: `10.3 lb ft (13.9 N m)`."""
        pounds = f"{newton_metres * 1000.0 / (NEWTONS_PER_POUND * 12 * MM_PER_INCH):.1f} lb ft"
        plain = f"{newton_metres:.1f} N m"
        return f"{pounds} ({plain})" if self.piece.unit is LengthUnit.INCHES else f"{plain} ({pounds})"

    def weight_at_most(self, kg: float) -> str:
        """A mass a maker would go by, never over `kg`: down to 1 lb or 0.5 kg."""
        step = KG_PER_POUND if self.piece.unit is LengthUnit.INCHES else 0.5
        return self.weight(floor(kg / step + 1e-6) * step)

    def weight_at_least(self, kg: float) -> str:
        """A mass a maker would go by, never under `kg`: up to 1 lb or 0.5 kg."""
        step = KG_PER_POUND if self.piece.unit is LengthUnit.INCHES else 0.5
        return self.weight(ceil(kg / step - 1e-6) * step)

    def length_at_most(self, mm: float) -> str:
        """A length a maker would set, never over `mm`: down to 1/16 in or 1 mm."""
        step = MM_PER_INCH / 16 if self.piece.unit is LengthUnit.INCHES else 1.0
        return self.length(floor(mm / step + 1e-6) * step)

    def step_up(self, mm: float) -> float:
        """The next size a maker would set: up to 1/16 in or 1 mm. [mm]"""
        step = MM_PER_INCH / 16 if self.piece.unit is LengthUnit.INCHES else 1.0
        return ceil(mm / step - 1e-6) * step

    def fine_step_up(self, mm: float) -> float:
        """The next size for a gap or a slot: up to 1/32 in or 0.5 mm. [mm]"""
        step = MM_PER_INCH / 32 if self.piece.unit is LengthUnit.INCHES else 0.5
        return ceil(mm / step - 1e-6) * step

    def corners(self, name: PartName) -> tuple[Vec3, ...]:
        """The corners of the solid at rest, piece's frame; rims of holes, which lie between others, not."""
        if name not in self._corners:
            solid = self.scene.solids[name]
            rows = solid.body.bare_mesh.verts.tolist()
            self._corners[name] = tuple(solid.placement.point((r[0], r[1], r[2])) for r in rows)
        return self._corners[name]

    @cached_property
    def _corners(self) -> dict[PartName, tuple[Vec3, ...]]:
        return {}

    def bounds(self, name: PartName) -> Box:
        """Smallest box round the finished part at rest, piece's frame."""
        return self.scene.solids[name].bounds

    def overall_change(self, axis: Axis, mm: float) -> tuple[Change, ...]:
        """The change of an overall size to at most `mm`; () where the piece does not name it."""
        name = f"overall {axis.word}"
        if not any(size.name == name for size in self.piece.sizes):
            return ()
        step = MM_PER_INCH / 16 if self.piece.unit is LengthUnit.INCHES else 1.0
        return (Change(name, format_length(floor(mm / step + 1e-6) * step, self.style).number),)

    @cached_property
    def moistures(self) -> Moistures:
        air, shop = self.piece.room.air, self.shop.climate
        bench = equilibrium_moisture_content(shop.temperature, shop.humidity)
        dry, damp, warmth = (
            (air.dry, air.damp, air.temperature) if air else (USUAL_DRY, USUAL_DAMP, USUAL_WARMTH)
        )
        return Moistures(
            bench,
            equilibrium_moisture_content(warmth, dry),
            equilibrium_moisture_content(warmth, damp),
            air is None,
        )

    @cached_property
    def joints_of(self) -> dict[PartName, tuple[Joint, ...]]:
        by_part: dict[PartName, list[Joint]] = defaultdict(list)
        for joint in self.piece.joints:
            by_part[joint.first].append(joint)
            by_part[joint.second].append(joint)
        return {name: tuple(joints) for name, joints in by_part.items()}

    @cached_property
    def layout_of(self) -> dict[str, JointLayout]:
        return {layout.joint: layout for layout in self.machined.layouts}

    @cached_property
    def uses_of(self) -> dict[str, tuple[HardwareUse, ...]]:
        """Fittings by their owner: a joint's id or a hardware name."""
        by_owner: dict[str, list[HardwareUse]] = defaultdict(list)
        for use in self.machined.hardware:
            by_owner[use.owner].append(use)
        return {owner: tuple(uses) for owner, uses in by_owner.items()}

    @cached_property
    def movement_of(self) -> dict[PartName, Movement]:
        """The movement that carries each moving part; of several, the one that carries fewest."""
        found: dict[PartName, Movement] = {}
        for movement in sorted(self.piece.movements, key=lambda m: -len(m.moves)):
            found.update(dict.fromkeys(sorted(movement.moves), movement))
        return found

    def carriers(self, hold: Hold) -> tuple[PartName, ...]:
        """The parts a held thing stands on; none for what stands on the floor."""
        return tuple(name for name in hold.on if name in self.scene.solids)

    def item_of(self, hardware: Hardware) -> HardwareItem | None:
        """The shop's item for a piece of hardware."""
        return next((item for item in self.shop.hardware if item.id == hardware.item), None)


def wood_of(part: Part) -> Species | None:
    """The species of a solid part; None for a sheet."""
    return None if part.material.kind is MaterialKind.SHEET else _species(part.material.species)


def panel_of(part: Part) -> Panel | None:
    """The kind of panel of a sheet part; None for solid wood."""
    return _panel(part.material.species) if part.material.kind is MaterialKind.SHEET else None


_species = lru_cache(maxsize=256)(species_named)
_panel = lru_cache(maxsize=256)(panel_named)


def frame_axis(part: Part, axis: Axis) -> Axis:
    """The axis of the piece along which an axis of the part's own frame lies (nearest for tilts)."""
    unit = [0.0, 0.0, 0.0]
    unit[axis] = 1.0
    turned = part.placement.direction((unit[0], unit[1], unit[2]))
    return max(Axis, key=lambda a: (abs(turned[a]), -a))


def grain_axis(part: Part) -> Axis:
    """The axis of the piece along which the part's grain runs (nearest for tilts)."""
    return frame_axis(part, part.grain)


def corners_of(box: Box) -> tuple[Vec3, ...]:
    """The eight corners of a box."""
    return tuple(product(*zip(box.low, box.high, strict=True)))  # type: ignore[arg-type]


def few_of(names: tuple[str, ...] | list[str]) -> str:
    """`a, b and c`; long lists are cut after four."""
    shown = list(names) if len(names) <= 4 else [*names[:3], f"{len(names) - 3} more"]
    return listed(shown)
