# ruff: noqa: E501
"""A plan made by hand: a boot bench of nine parts, small enough to check in the head. Inches in, mm out."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

from tests.packet.bench_wood import HERE, INCH, bench_cut_plan, bench_shop

from scantling.building.build_plan import BuildPlan, Cost, ShoppingLine, Slot, Stage, Step
from scantling.checks.finding import Finding, Mend, Severity
from scantling.cutting.cut_plan import (
    CutPlan,
)
from scantling.joinery.features import (
    Addition,
    Cut,
    HardwareUse,
    Hole,
    JointLayout,
    MachinedPart,
    MachinedPiece,
)
from scantling.piece.model import (
    Air,
    Axis,
    Box,
    Coats,
    Face,
    Joint,
    JointSettings,
    Material,
    MaterialKind,
    NamedSize,
    Part,
    Piece,
    Range,
    Room,
)
from scantling.quantity.kinds import Kind, LengthUnit
from scantling.shop.model import (
    Shop,
)

CHERRY = Material("wood", "cherry 3/4", MaterialKind.SOLID, "cherry, black", thick=0.75 * INCH)
PLY = Material(
    "ply", "birch plywood 1/4", MaterialKind.SHEET, "birch plywood", thick=6.0, label=6.35, measured=True
)


@dataclass(frozen=True)
class HandMade:
    """The fields of a plan, made by hand."""

    document: Any
    shop: Shop
    piece: Piece
    machined: MachinedPiece
    scene: Any
    mass: Any
    findings: tuple[Finding, ...]
    cut_plan: CutPlan
    build_plan: BuildPlan
    settled: tuple[Any, ...]

    @property
    def shop_as_left(self) -> Shop:
        return self.shop


@dataclass(frozen=True)
class HandSettled:
    name: str
    text: str
    why: str
    value: float | None = None
    ok: bool = True


def inches(*low_high: float) -> Box:
    """A box from wide, deep, high low-high pairs in inches."""
    w0, w1, d0, d1, h0, h1 = (value * INCH for value in low_high)
    return Box((w0, d0, h0), (w1, d1, h1))


def part(name: str, definition: str, box: Box, grain: Axis, material: Material = CHERRY, **more: Any) -> Part:
    return Part(name=name, definition=definition, box=box, material=material, grain=grain, place=HERE, **more)


TOP = part("top", "top", inches(0, 36, 0, 12, 17.25, 18), Axis.WIDE)
LEFT = part("left side", "side", inches(1, 1.75, 0.5, 11.5, 0, 17.25), Axis.HIGH, copy_words=("left",))
RIGHT = replace(
    LEFT, name="right side", box=inches(34.25, 35, 0.5, 11.5, 0, 17.25), mirrored=True, copy_words=("right",)
)
SHELF = part("shelf", "shelf", inches(1.75, 34.25, 1, 11, 4, 4.75), Axis.WIDE)
FRONT = part("front rail", "front rail", inches(1.75, 34.25, 1, 1.75, 14.75, 17.25), Axis.WIDE)
BACK = part(
    "back panel",
    "back panel",
    Box((1.75 * INCH, 11 * INCH, 4 * INCH), (34.25 * INCH, 11 * INCH + 6, 17.25 * INCH)),
    Axis.WIDE,
    PLY,
)
CLEATS = tuple(
    part(f"cleat {n}", "cleat", inches(x, x + 0.75, 3, 10, 16.5, 17.25), Axis.DEEP)
    for n, x in ((1, 1.75), (2, 33.5))
)


def side(base: Part, inside: Face) -> MachinedPart:
    sign = -inside.sign
    inner = base.box.face(inside)
    deep = sorted((inner, inner + sign * 0.375 * INCH))
    dado = Cut(
        Box((deep[0], 1 * INCH, 4 * INCH), (deep[1], 11 * INCH, 4.75 * INCH)),
        inside,
        "dado",
        "J1",
        round_ends=True,
    )
    groove = Cut(
        Box((deep[0], 11 * INCH, 4 * INCH), (deep[1], 11 * INCH + 6, 17.25 * INCH)), inside, "groove", "J3"
    )
    mortise = Cut(
        Box((deep[0], 1.2 * INCH, 15 * INCH), (deep[1], 1.55 * INCH, 17 * INCH)), inside, "mortise", "J2"
    )
    middle = (base.box.low[0] + base.box.high[0]) / 2
    dowels = tuple(
        Hole((middle, y * INCH, 17.25 * INCH), (0, 0, -1), 9.525, 27.0, "dowel", "J4") for y in (2, 6, 10)
    )
    screws = tuple(
        Hole((inner, y * INCH, 16.875 * INCH), (sign * 1.0, 0, 0), 3.2, 12.0, "pilot", "J5")
        for y in (4.5, 8.5)
    )
    return MachinedPart(base, base.box, holes=dowels + screws, cuts=(dado, groove, mortise))


def _longer(base: Part, by: float, kind: str, owner: str, box: Box | None = None) -> MachinedPart:
    b = box or base.box
    left = Box((base.box.low[0] - by, b.low[1], b.low[2]), (base.box.low[0], b.high[1], b.high[2]))
    right = Box((base.box.high[0], b.low[1], b.low[2]), (base.box.high[0] + by, b.high[1], b.high[2]))
    cut = base.box.with_span(Axis.WIDE, base.box.low[0] - by, base.box.high[0] + by)
    return MachinedPart(
        base,
        cut,
        additions=(Addition(left, Face.LEFT, kind, owner), Addition(right, Face.RIGHT, kind, owner)),
    )


def machined_bench(name: str = "Boot bench", top_name: str = "top") -> MachinedPiece:
    top = replace(TOP, name=top_name, definition=top_name)
    under = tuple(
        Hole((x * INCH, y * INCH, 17.25 * INCH), (0, 0, 1), 9.525, 14.0, "dowel", "J4")
        for x in (1.375, 34.625)
        for y in (2, 6, 10)
    )
    tenon = inches(1.75, 34.25, 1.2, 1.55, 15, 17)
    cleats = tuple(
        MachinedPart(
            c,
            c.box,
            holes=tuple(
                Hole(
                    ((c.box.low[0] + c.box.high[0]) / 2, y * INCH, 16.5 * INCH),
                    (0, 0, 1),
                    4.5,
                    19.05,
                    "clearance",
                    "J5",
                    through=True,
                )
                for y in (4, 9)
            ),
        )
        for c in CLEATS
    )
    parts = (
        MachinedPart(top, top.box, holes=under),
        side(LEFT, Face.RIGHT),
        side(RIGHT, Face.LEFT),
        _longer(SHELF, 0.375 * INCH, "tongue", "J1"),
        _longer(FRONT, 0.375 * INCH, "tenon", "J2", tenon),
        _longer(BACK, 0.375 * INCH, "tongue", "J3"),
        *cleats,
    )
    joints = tuple(
        Joint(ident, first, second, method, None, None, None, JointSettings(), line, HERE)
        for ident, first, second, method, line in (
            ("J1", "shelf", "left side", "dado", 1),
            ("J1r", "shelf", "right side", "dado", 1),
            ("J2", "front rail", "left side", "tenon", 2),
            ("J2r", "front rail", "right side", "tenon", 2),
            ("J3", "back panel", "left side", "groove", 3),
            ("J4", "left side", top_name, "dowels", 4),
            ("J5", "cleat 1", top_name, "slotted screws", 5),
        )
    )
    piece = Piece(
        name=name,
        unit=LengthUnit.INCHES,
        overall=inches(0, 36, 0, 12, 0, 18),
        parts=tuple(p.part for p in parts),
        joints=joints,
        sizes=(
            NamedSize("overall wide", 36 * INCH, Kind.LENGTH, "36", HERE),
            NamedSize("overall deep", 12 * INCH, Kind.LENGTH, "12", HERE),
            NamedSize("overall high", 18 * INCH, Kind.LENGTH, "18", HERE),
            NamedSize(
                "shelf up",
                4 * INCH,
                Kind.LENGTH,
                "least within 3 to 6 by 1/2",
                HERE,
                Range(76.2, 152.4, 12.7, "least"),
            ),
        ),
        materials=(CHERRY, PLY),
        room=Room(air=Air(0.25, 0.6, 20.0)),
        finish=(Coats("hardwax oil", 2, ("all",), HERE),),
        note="A bench to sit on while boots go on, with a shelf below for two pairs.",
    )
    layouts = (
        JointLayout("J1", "dado", "dado 3/8 deep, 3/4 wide, stopped 1/2 from the front", glued_area=17000),
        JointLayout("J2", "tenon", "tenon 3/8 long, 3/8 thick, 2 wide", glued_area=900),
        JointLayout(
            "J4",
            "dowels",
            "3 dowels 3/8 x 1 1/2, 2, 6 and 10 from the front",
            source="common practice, no source",
        ),
        JointLayout("J5", "slotted screws", "screws in slots, free to move 1/16 either way"),
    )
    hardware = (
        HardwareUse("dowel", "3/8 x 1 1/2", 6, "J4", sizes=(("diameter", 9.525), ("length", 38.1))),
        HardwareUse("wood screw", "8 x 1 1/4", 4, "J5", parts=("cleat 1", top_name), fixed=False, travel=1.6),
    )
    return MachinedPiece(piece, parts, layouts, hardware)


def bench_build_plan() -> BuildPlan:
    steps = (
        Step(1, Stage.ROUGH_CUT, "Cut the boards to rough length", "Cut C1 and C2 as their cut plans show, long pieces first.", ("top",), "mitre saw", ("stop at 37 in",), 25, check="every blank is at least 1/2 in longer than its part", cautions=("Wear eye and hearing protection.", "Support the long end, and wait for the blade to stop before you lift it.")),
        Step(2, Stage.GLUE_UP, "Glue the top from two staves", "Glue edge to edge, best faces up, clamps every 10 in, above and below in turn.", ("top",), "", (), 35, 720, "the glue cures before the panel is planed", (1,), "the panel lies flat on a straight edge"),
        Step(3, Stage.JOINTS, "Cut the dados in both sides", "Left and right are opposites: mark the inside face of both before cutting.", ("left side", "right side"), "router", ("straight bit 3/4 in", "depth 3/8 in"), 40, 0, "", (1,), "the shelf slides in by hand", ("Feed against the turn of the bit; clamp the work.",)),
        Step(4, Stage.ASSEMBLE, "Join rail, shelf and panel to the left side", "Glue the dado and the mortise. The panel goes in dry.", ("left side", "shelf", "front rail", "back panel"), "", (), 30, 60, "glue in the clamps", (3,), "diagonals are equal within 1/16 in", (), ("left side", "shelf", "front rail", "back panel")),
        Step(5, Stage.ASSEMBLE, "Add the right side and the cleats", "Close the case with clamps in line with the rail.", ("right side", "cleat 1", "cleat 2"), "", (), 25, 60, "glue in the clamps", (4,), "", (), ("left side", "shelf", "front rail", "back panel", "right side", "cleat 1", "cleat 2")),
        Step(6, Stage.ASSEMBLE, "Fit the top", "Dowels at the front are glued, screws from the cleats stay dry.", ("top",), "drill", ("3/8 in bit, stop at 9/16 in",), 30, 0, "", (2, 5), "the top sits down by hand", ("Clamp the jig and the work before you drill.",), ("left side", "shelf", "front rail", "back panel", "right side", "cleat 1", "cleat 2", "top")),
        Step(7, Stage.FINISH, "Oil all over, two coats", "Equal coats above and below.", (), "", (), 45, 1440, "between coats and before use", (6,), "", ("Rags wet with oil can catch fire by themselves: spread them flat outdoors or put them under water in a lidded metal can.",)),
    )  # fmt: skip
    shopping = (
        ShoppingLine("timber", "cherry, black 4/4, board C2", 4.7, "board feet", 0, 4.7, 6.7, 31.5),
        ShoppingLine("hardware", "dowel 3/8 x 1 1/2", 6, "pieces", 0, 50, 0.1, 5.0, "sold in packs of 50"),
        ShoppingLine("supplies", "hardwax oil", 0.13, "litre", 0, 1, 42.0, 42.0),
    )
    slots = tuple(
        Slot(s.number, 60.0 * s.number, 60.0 * s.number + s.active, 60.0 * s.number + s.active + s.wait)
        for s in steps
    )
    return BuildPlan(steps, shopping, Cost(36.5, 60.0, 42.0, 3.8, 0.0, "USD"), 230, 2280, slots)


def bench_findings() -> tuple[Finding, ...]:
    return (
        Finding(
            "tipping",
            "tips back",
            Severity.MUST,
            "A push of 40 N at the top of the back tips it.",
            ("top",),
            40.0,
            60.0,
            "N",
            "common practice, no source",
            Mend("Make it 13 in deep."),
        ),
        Finding(
            "sag",
            "shelf sags",
            Severity.SHOULD,
            "The shelf sags 3.1 mm under two pairs of boots after years.",
            ("shelf",),
            3.1,
            2.6,
            "mm",
            "Wood Handbook ch. 9, Eq. (9-2)",
            Mend("Make the shelf 7/8 in thick."),
        ),
        Finding(
            "seasonal movement",
            "top moves",
            Severity.KNOW,
            "The top grows 2.4 mm from dry winter to damp summer; the slots allow 3.2 mm.",
            ("top",),
            2.4,
            3.2,
            "mm",
            "Wood Handbook ch. 13, Eq. (13-2)",
        ),
    )


def renamed(value: Any, top_name: str) -> Any:
    """The same data with the top called `top_name`."""
    if isinstance(value, tuple):
        return tuple(renamed(item, top_name) for item in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: renamed(getattr(value, f.name), top_name) for f in fields(value)})
    return top_name if value == "top" else value


def bench_plan(scene: Any, mass: Any, machined: MachinedPiece, top_name: str = "top") -> HandMade:
    """The whole hand-made plan; `top_name` is what the top is called everywhere."""
    return HandMade(
        document=None,
        shop=bench_shop(),
        piece=machined.piece,
        machined=machined,
        scene=scene,
        mass=mass,
        findings=renamed(bench_findings(), top_name),
        cut_plan=renamed(bench_cut_plan(), top_name),
        build_plan=renamed(bench_build_plan(), top_name),
        settled=(HandSettled("shelf up", "4 in", "least height at which the boot clearance passes", 101.6),),
    )
