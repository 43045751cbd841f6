"""Hand-built machined pieces, and the volume of a part by the formulas of its features."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import pi
from types import SimpleNamespace

import pytest

from scantling.errors import Place
from scantling.geometry import scene_of
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece.model import Axis, Box, Material, MaterialKind, Part, Piece
from scantling.quantity.kinds import LengthUnit

PLACE = Place("by-hand.yaml", 1, 1)
CHERRY = Material("wood", "cherry 3/4", MaterialKind.SOLID, "cherry, black")


def machined(name, low, high, *, grain=None, features=None, **part):
    """A part that fills the box from `low` to `high`, with `features` as keywords of MachinedPart."""
    box = Box(tuple(map(float, low)), tuple(map(float, high)))
    grain = max(Axis, key=box.size) if grain is None else grain
    made = Part(name, name, box, part.pop("material", CHERRY), grain, PLACE, **part)
    return MachinedPart(made, box, **(features or {}))


def piece_of(*parts, **fields):
    """A machined piece of these parts; `fields` of Piece (movements, poses)."""
    overall = Box((0.0, 0.0, 0.0), (1000.0, 1000.0, 1000.0))
    return MachinedPiece(
        Piece("by hand", LengthUnit.MM, overall, tuple(p.part for p in parts), **fields), tuple(parts)
    )


def analytic_volume(part: MachinedPart) -> float:
    """Box, and additions, less cuts and blind holes, for features that do not meet each other."""
    volume = part.part.box.volume + sum(a.box.volume for a in part.additions)
    volume -= sum(c.box.volume for c in part.cuts)
    return volume - sum(pi * h.diameter**2 / 4 * h.deep for h in part.holes)


@pytest.fixture(scope="session")
def by_hand() -> SimpleNamespace:
    """The builders of this file, for tests (which do not import one another)."""
    return SimpleNamespace(
        part=machined,
        piece=piece_of,
        place=PLACE,
        cherry=CHERRY,
        analytic_volume=analytic_volume,
        replace=replace,
    )


@pytest.fixture(scope="session")
def solid_of_part(by_hand: SimpleNamespace) -> Callable[[MachinedPart], object]:
    """The solid of a single part."""
    return lambda part: scene_of(by_hand.piece(part)).solids[part.name]


@pytest.fixture(scope="session")
def desk(by_hand: SimpleNamespace) -> MachinedPiece:
    """A table of nine parts: four legs 40 square, four rails, a top that overhangs by 20."""
    p = by_hand.part
    legs = [
        p(f"leg {i}", (x, y, 0), (x + 40, y + 40, 720))
        for i, (x, y) in enumerate([(0, 0), (960, 0), (0, 400), (960, 400)], 1)
    ]
    return by_hand.piece(
        *legs,
        p("front rail", (40, 10, 620), (960, 30, 720)),
        p("back rail", (40, 410, 620), (960, 430, 720)),
        p("left rail", (10, 40, 620), (30, 400, 720)),
        p("right rail", (970, 40, 620), (990, 400, 720)),
        p("top", (-20, -20, 720), (1020, 460, 740)),
    )
