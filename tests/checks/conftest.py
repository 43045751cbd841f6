"""Small pieces put together by hand: boxes, joints, loads; each check is asked by itself."""

from dataclasses import dataclass, replace

import pytest

from scantling.checks.examined import Examined
from scantling.errors import Place
from scantling.geometry import scene_of
from scantling.joinery.features import HardwareUse, Hole, JointLayout, MachinedPart, MachinedPiece
from scantling.piece.model import (
    Axis,
    Box,
    Joint,
    JointSettings,
    Material,
    MaterialKind,
    Part,
    Piece,
    face_of,
)
from scantling.quantity.kinds import LengthUnit
from scantling.shop.model import Climate, Shop
from scantling.wood import is_panel_name

HERE = Place("by-hand.yaml", 1, 1)


@dataclass
class Maker:
    """Builds parts and joints from plain numbers, and asks checks about them."""

    place: Place = HERE

    def part(self, name, low, high, wood="cherry", grain=None, **more):
        box = Box(tuple(map(float, low)), tuple(map(float, high)))
        sheet = is_panel_name(wood)
        kind = MaterialKind.SHEET if sheet else MaterialKind.SOLID
        grain = max(Axis, key=lambda a: box.size(a)) if grain is None else grain
        more.setdefault("definition", name)
        return Part(name, box=box, material=Material(wood, wood, kind, wood), grain=grain, place=HERE, **more)

    def joint(self, first, second, method, line=1, **settings):
        """Two parts, or a part and "wall"; the meeting is where their boxes touch."""
        if isinstance(second, str):
            return Joint(
                f"{first.name}>{second}",
                first.name,
                second,
                method,
                None,
                None,
                None,
                JointSettings(**settings),
                line,
                HERE,
            )
        area = first.box.intersection(second.box)
        assert area is not None, f"{first.name} does not touch {second.name}"
        axis = min(Axis, key=area.size)
        sign = 1 if area.centre[axis] > first.box.centre[axis] else -1
        face = face_of(axis, sign)
        ident = f"{first.name}>{second.name}"
        return Joint(
            ident,
            first.name,
            second.name,
            method,
            face,
            face.opposite,
            area,
            JointSettings(**settings),
            line,
            HERE,
        )

    def piece(self, *parts, unit=LengthUnit.MM, **more):
        lows = [min(p.box.low[a] for p in parts) for a in Axis]
        highs = [max(p.box.high[a] for p in parts) for a in Axis]
        more.setdefault("overall", Box(tuple(lows), tuple(highs)))
        return Piece("a piece", unit, parts=parts, **more)

    def examined(self, piece, shop=None, holes=(), hardware=(), layouts=(), notices=()):
        """`holes`: by part name."""
        drilled = dict(holes)
        parts = tuple(
            MachinedPart(part, part.box, holes=tuple(drilled.get(part.name, ()))) for part in piece.parts
        )
        machined = MachinedPiece(piece, parts, tuple(layouts), tuple(hardware), tuple(notices))
        return Examined(machined, scene_of(machined), shop or self.shop())

    def shop(self, **more):
        """Air of 45 % at 20 °C: wood at 8.4 %."""
        return Shop("a shop", LengthUnit.MM, climate=Climate(0.45, 20.0), **more)

    def ask(self, check, piece, **more):
        return tuple(check(self.examined(piece, **more)))

    def hole(self, at, direction, diameter, deep, purpose="dowel", owner="a joint"):
        return Hole(tuple(map(float, at)), tuple(map(float, direction)), diameter, deep, purpose, owner)

    def use(self, kind, owner, count=1, **more):
        return HardwareUse(kind, "", count, owner, **more)

    def layout(self, joint, **numbers):
        return JointLayout(joint.id, joint.method, "", tuple(numbers.items()))

    def renamed(self, thing, **more):
        return replace(thing, **more)


@pytest.fixture(scope="session")
def make():
    return Maker()


@pytest.fixture
def codes():
    """The codes of findings, in order."""
    return lambda findings: [finding.code for finding in findings]
