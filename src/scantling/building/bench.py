"""What every stage looks things up in: the piece, the cut plan and the shop, side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from scantling.building.assembly import Assembly, assemblies, units
from scantling.building.clusters import Cluster
from scantling.building.naming import Names
from scantling.building.tables import Finish, GlueKind, cautions_for, finish_named, glue_named
from scantling.cutting.cut_plan import Blank, CutPlan, StockLayout
from scantling.joinery.features import JointLayout, MachinedPart, MachinedPiece
from scantling.piece.model import MaterialKind, Part, PartName, Piece
from scantling.quantity import MM_PER_INCH, LengthUnit, Style, dual, format_length
from scantling.shop.model import Board, BoardForSale, Lumber, Machine, MachineKind, Sheet, Shop, Supply
from scantling.shop.words import SQUARE_METRES_PER_SQUARE_FOOT

LITRES = {"litre": 1.0, "quart": 0.946353, "pint": 0.473176, "gallon": 3.785412}  # US liquid measure
ROUGH_FRACTION = 16  # of an inch, for places on rough stock

T = TypeVar("T")
K = TypeVar("K")
Stock = Board | BoardForSale | Lumber | Sheet


@dataclass(frozen=True)
class Bench:
    """One piece on one maker's bench."""

    machined: MachinedPiece
    cuts: CutPlan
    shop: Shop

    @property
    def piece(self) -> Piece:
        return self.machined.piece

    @cached_property
    def names(self) -> Names:
        return Names(self.piece)

    @property
    def unit(self) -> LengthUnit:
        """The piece file's own."""
        return self.piece.unit

    @cached_property
    def style(self) -> Style:
        return Style(self.unit, self.shop.fraction)

    def show(self, mm: float) -> str:
        """A length in the piece's unit."""
        return format_length(_settled(mm), self.style).text

    def number(self, mm: float) -> str:
        """A length in the piece's unit, without its word, for lists."""
        return format_length(_settled(mm), self.style).number

    def both(self, mm: float) -> str:
        """A length in the piece's unit and the other."""
        return dual(_settled(mm), self.style)

    def rough(self, mm: float) -> str:
        """A place on rough stock: to 1/16 in or 1 mm, without the unit's word."""
        if self.unit is LengthUnit.MM:
            return f"{mm:.0f}"
        return format_length(mm, Style(self.unit, ROUGH_FRACTION)).number

    def tolerance(self, mm: float) -> str:
        """A small allowed error, in both units; below 1/64 in as thousandths, as calipers show it."""
        inches = mm / MM_PER_INCH
        fine = (
            format_length(mm, Style(LengthUnit.INCHES, 64)).text if inches >= 1 / 64 else f"{inches:.3f} in"
        )
        return f"{mm:g} mm" if self.unit is LengthUnit.MM else f"{fine} ({mm:g} mm)"

    def area(self, square_metres: float) -> str:
        """An area in the piece's unit first: `41 sq ft (3.8 m²)`."""
        metric = f"{square_metres:.1f} m²"
        if self.unit is LengthUnit.MM:
            return metric
        return f"{square_metres / SQUARE_METRES_PER_SQUARE_FOOT:.0f} sq ft ({metric})"

    def series(self, mms: Iterable[float]) -> str:
        """`12, 25 1/4, 38 in`."""
        shown = [self.number(mm) for mm in mms]
        return ", ".join([*shown[:-1], self.show(list(mms)[-1])]) if shown else ""

    def part(self, name: PartName) -> Part:
        return self.piece.part_by_name[name]

    def machined_part(self, name: PartName) -> MachinedPart:
        return self.machined.by_name[name]

    @cached_property
    def blanks(self) -> Mapping[str, Blank]:
        return {blank.id: blank for blank in (*self.cuts.made, *self.cuts.blanks)}

    @cached_property
    def blanks_of(self) -> Mapping[PartName, tuple[Blank, ...]]:
        return grouped((*self.cuts.made, *self.cuts.blanks), lambda blank: blank.part)

    @cached_property
    def layout_of(self) -> Mapping[str, StockLayout]:
        """The stock each blank is cut from."""
        return {placed.blank: layout for layout in self.cuts.layouts for placed in layout.placed}

    @cached_property
    def stock(self) -> Mapping[str, Stock]:
        shop = self.shop
        items: tuple[Stock, ...] = (*shop.boards, *shop.for_sale, *shop.lumber, *shop.sheets)
        return {item.id: item for item in items}

    def stock_of(self, layout: StockLayout) -> Stock | None:
        """The entry of the shop a layout is cut from; `#2` counts within a stack."""
        return self.stock.get(layout.stock) or self.stock.get(layout.stock.rpartition("#")[0])

    def machine(self, *kinds: MachineKind) -> Machine | None:
        """The first of these kinds the shop has, in the order asked."""
        return next((found for kind in kinds if (found := self.shop.machine(kind))), None)

    @cached_property
    def assemblies(self) -> tuple[Assembly, ...]:
        return assemblies(self.piece)

    @cached_property
    def units(self) -> tuple[Cluster, ...]:
        return units(self.piece)

    @cached_property
    def main_unit(self) -> Cluster:
        """What most parts hang together in."""
        return max(self.units, key=len)

    @cached_property
    def groups(self) -> Mapping[frozenset[PartName], str]:
        """Groups and kits by the parts they hold."""
        members: dict[str, set[PartName]] = {}
        for part in self.piece.parts:
            for at in range(len(part.groups)):
                members.setdefault(part.groups[at], set()).add(part.name)
        return {frozenset(names): group for group, names in members.items() if len(names) > 1}

    @cached_property
    def layouts_by_joint(self) -> Mapping[str, JointLayout]:
        return {layout.joint: layout for layout in self.machined.layouts}

    def layouts(self, kind: MaterialKind) -> tuple[StockLayout, ...]:
        return tuple(layout for layout in self.cuts.layouts if layout.kind is kind and layout.placed)

    @cached_property
    def finish(self) -> Finish | None:
        return finish_named(self.piece.finish[0].finish) if self.piece.finish else None

    @cached_property
    def glue(self) -> GlueKind:
        return glue_named(self.glue_supply.id if self.glue_supply else "wood glue")

    @cached_property
    def glue_supply(self) -> Supply | None:
        return next((s for s in self.shop.supplies if "glue" in s.kind or "epoxy" in s.kind), None)

    def supply_named(self, words: str) -> Supply | None:
        """The shop's supply that goes by these words."""
        low = words.lower()
        return next((s for s in self.shop.supplies if s.kind in low or low in s.kind), None)

    def coverage(self, finish: str) -> float:
        """m² a litre and coat: as the shop's can says, else as is usual for the finish."""
        supply = self.supply_named(finish)
        litres = LITRES.get(supply.unit, 1.0) if supply else 1.0
        return supply.covers / litres if supply and supply.covers else finish_named(finish).coverage

    def cautions(self, machine: Machine | None, *also: str) -> tuple[str, ...]:
        return cautions_for(*((machine.kind.value,) if machine else ()), *also)

    def overall_length(self, name: PartName) -> float:
        """Along the grain, with what goes into joints; true length of a leaning part. [mm]"""
        return self.machined_part(name).true_overall_length

    def cut_sizes(self, name: PartName) -> tuple[float, float, float]:
        """Overall length, width and thickness as cut, lipping left out. [mm]"""
        part, machined = self.part(name), self.machined_part(name)
        box = machined.core_box or machined.cut_box
        return (
            box.size(part.grain) * part.true_ratio,
            box.size(part.width_axis),
            box.size(part.thickness_axis),
        )


def _settled(mm: float) -> float:
    """Without the float noise that would show 19.05 as 19 here and 19.1 there."""
    return round(mm, 6)


def grouped(items: Iterable[T], key: Callable[[T], K]) -> dict[K, tuple[T, ...]]:
    """Items by key, keys in the order first met."""
    found: dict[K, list[T]] = {}
    for item in items:
        found.setdefault(key(item), []).append(item)
    return {name: tuple(members) for name, members in found.items()}
