"""Pieces put together by hand for pictures: a box with a lid and a tray, riding movements, many slats."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

from scantling.checks.finding import Finding, Severity
from scantling.errors import Place
from scantling.geometry import scene_of
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece.model import (
    Axis,
    Box,
    Hold,
    Material,
    MaterialKind,
    Movement,
    Part,
    Piece,
    Pose,
    PoseStep,
    Slide,
    Swing,
)
from scantling.quantity.kinds import LengthUnit

PLACE = Place("by-hand.yaml", 1, 1)
CHERRY = Material("wood", "cherry 3/4", MaterialKind.SOLID, "cherry, black")
HOSTILE = 'tray </script><img src=x onerror="document.title=1">'


def part(name: str, low: tuple[float, ...], high: tuple[float, ...], **more: Any) -> MachinedPart:
    """A plain board from corner to corner. [mm]"""
    box = Box(tuple(map(float, low)), tuple(map(float, high)))
    made = Part(name, more.pop("definition", name), box, CHERRY, max(Axis, key=box.size), PLACE, **more)
    return MachinedPart(made, box)


def plan_of(*parts: MachinedPart, findings: tuple[Finding, ...] = (), **fields: Any) -> Any:
    """As much of a plan as a picture asks for."""
    lows, highs = (zip(*(corner(p.part.box) for p in parts), strict=True) for corner in (low_of, high_of))
    overall = Box(tuple(map(min, lows)), tuple(map(max, highs)))
    unit = fields.pop("unit", LengthUnit.INCHES)
    piece = Piece(fields.pop("name", "Box by hand"), unit, overall, tuple(p.part for p in parts), **fields)
    machined = MachinedPiece(piece, parts)
    scene, shop = scene_of(machined), SimpleNamespace(fraction=32)
    return SimpleNamespace(piece=piece, machined=machined, scene=scene, findings=findings, shop=shop)


def low_of(box: Box) -> tuple[float, ...]:
    return box.low


def high_of(box: Box) -> tuple[float, ...]:
    return box.high


def lidded(side: float = 0.0, tray: str = "tray", **fields: Any) -> Any:
    """A box 400 wide, 300 deep and 200 high; `side` mm more at its right side. The tray waits for the lid."""
    right = 400 + side
    lid = Swing((0.0, 300.0, 200.0), (-1.0, 0.0, 0.0), 90.0)
    moves = (
        Movement(tray, frozenset({tray}), Slide((0.0, -1.0, 0.0), 250.0), PLACE, after=("lid",)),
        Movement("lid", frozenset({"lid"}), lid, PLACE),
    )
    return plan_of(
        part("bottom", (0, 0, 0), (right, 300, 20)),
        part("left side", (0, 0, 20), (20, 300, 180), definition="side"),
        part("right side", (right - 20, 0, 20), (right, 300, 180), definition="side"),
        part("back", (20, 280, 20), (right - 20, 300, 180)),
        part(tray, (20, 0, 100), (right - 20, 280, 112)),
        part("lid", (0, 0, 180), (right, 300, 200)),
        movements=moves,
        poses=(
            Pose("open", (PoseStep("lid", 1.0), PoseStep(tray, 0.5))),
            Pose("ajar", (PoseStep("lid", 0.25),)),
        ),
        holds=(Hold("kettle", Box((100.0, 50.0, 112.0), (200.0, 150.0, 170.0)), 1.0, (tray,), 0.0, PLACE),),
        findings=(
            Finding(
                "holding",
                "too weak",
                Severity.MUST,
                "the bottom is thin",
                ("bottom",),
                spot=(200.0, 0.0, 10.0),
            ),
            Finding("fit", "tight", Severity.SHOULD, "the tray is tight", (tray, "left side"), pose="open"),
            Finding("wood", "moves", Severity.KNOW, "the back moves with the year", ("back",)),
        ),
        **fields,
    )


def slatted(count: int) -> Any:
    """So many upright slats in rows."""
    rows = 20
    slats = [
        part(
            f"slat {n + 1}",
            (n % rows * 50, n // rows * 40, 0),
            (n % rows * 50 + 30, n // rows * 40 + 15, 600),
        )
        for n in range(count)
    ]
    return plan_of(*slats, name="Many slats")


def riding() -> Any:
    """A flap that swings on a slide that slides on a lift, and one movement by itself on the same part."""
    return plan_of(
        part("base", (0, 0, 0), (300, 200, 20)),
        part("frame", (0, 0, 20), (300, 200, 40)),
        part("slide", (0, 0, 40), (300, 200, 60)),
        part("flap", (0, 0, 60), (300, 200, 80)),
        movements=(
            Movement(
                "flap",
                frozenset({"flap"}),
                Swing((0.0, 200.0, 70.0), (-1.0, 0.0, 0.0), 75.0),
                PLACE,
                rides_on="slide",
            ),
            Movement("slide", frozenset({"slide"}), Slide((0.0, -1.0, 0.0), 120.0), PLACE, rides_on="lift"),
            Movement("lift", frozenset({"frame"}), Slide((0.0, 0.0, 1.0), 90.0), PLACE),
            Movement(
                "turn",
                frozenset({"flap"}),
                Swing((150.0, 100.0, 0.0), (0.0, 0.0, 1.0), 40.0),
                PLACE,
                after=("flap",),
            ),
        ),
        poses=(
            Pose("all", tuple(PoseStep(name, 1.0) for name in ("flap", "slide", "lift", "turn"))),
            Pose("some", (PoseStep("flap", 0.5), PoseStep("slide", 0.25))),
        ),
    )


def fixed(plan: Any, name: str) -> Any:
    """The same with one part already cut."""
    parts = [replace(m, part=replace(m.part, fixed=m.part.name == name)) for m in plan.machined.parts]
    return plan_of(*parts)
