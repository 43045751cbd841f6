"""A small piece built by hand, and the plans of the ten examples."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from scantling.building import build_plan
from scantling.cutting import cut_plan
from scantling.errors import Place
from scantling.joinery import machine_piece
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece import read_piece, resolve
from scantling.piece.model import (
    Axis,
    Box,
    Face,
    Glue,
    Joint,
    JointSettings,
    Material,
    MaterialKind,
    Part,
    Piece,
)
from scantling.quantity import LengthUnit
from scantling.shop import facts_of, read_shop

HERE = Place("piece.yaml", 1, 1)
EXAMPLES = Path(__file__).parents[2] / "src" / "scantling" / "examples"
WOOD = Material("wood", "cherry 3/4", MaterialKind.SOLID, "cherry, black", thick=19.05)
PLY = Material("ply", "birch plywood 6", MaterialKind.SHEET, "birch plywood", thick=6.0, label=6.0)


def _part(name: str, low: tuple[float, ...], high: tuple[float, ...], **other: Any) -> Part:
    box = Box(tuple(low), tuple(high))  # type: ignore[arg-type]
    grain = max(Axis, key=lambda axis: box.size(axis))
    settings: dict[str, Any] = {"definition": name, "material": WOOD, "grain": grain, "place": HERE}
    return Part(name=name, box=box, **(settings | other))


def _joint(first: str, second: str, method: str, face: Face | None, **settings: Any) -> Joint:
    name = f"{first} > {second}"
    opposite = face.opposite if face else None
    return Joint(name, first, second, method, face, opposite, None, JointSettings(**settings), 1, HERE)


def _piece(parts: list[Part], joints: list[Joint], **other: Any) -> Piece:
    lows = [part.box.low for part in parts]
    highs = [part.box.high for part in parts]
    box = Box(tuple(map(min, zip(*lows))), tuple(map(max, zip(*highs))))  # type: ignore[arg-type]  # noqa: B905
    return Piece("a test", LengthUnit.MM, box, tuple(parts), tuple(joints), **other)


@pytest.fixture(scope="session")
def make_part() -> Callable[..., Part]:
    """A part from its corners; its grain runs along its longest size."""
    return _part


@pytest.fixture(scope="session")
def make_joint() -> Callable[..., Joint]:
    return _joint


@pytest.fixture(scope="session")
def make_piece() -> Callable[..., Piece]:
    return _piece


@pytest.fixture(scope="session")
def machined() -> Callable[[Piece], MachinedPiece]:
    """Parts without any features: what shows is what is cut."""

    def bare(piece: Piece) -> MachinedPiece:
        return MachinedPiece(piece, tuple(MachinedPart(part, part.box) for part in piece.parts))

    return bare


@pytest.fixture(scope="session")
def table_frame() -> Piece:
    """Four legs and four rails: long rails run wide, end rails deep."""
    legs = [
        _part(
            f"{x} {y} leg", (a, b, 0), (a + 40, b + 40, 700), definition="leg", copy_words=(x, y)
        )
        for x, a in (("left", 0), ("right", 960))
        for y, b in (("front", 0), ("back", 360))
    ]  # fmt: skip
    long = [_part(f"{y} rail", (40, b, 600), (960, b + 20, 700)) for y, b in (("front", 10), ("back", 370))]
    ends = [
        _part(f"{x} end rail", (a, 40, 600), (a + 20, 360, 700), definition="end rail")
        for x, a in (("left", 10), ("right", 970))
    ]
    joints = [_joint(r.name, f"{x} {r.name.split()[0]} leg", "tenon", face)
              for r in long for x, face in (("left", Face.LEFT), ("right", Face.RIGHT))]  # fmt: skip
    joints += [_joint(r.name, f"{r.name.split()[0]} {y} leg", "tenon", face)
               for r in ends for y, face in (("front", Face.FRONT), ("back", Face.BACK))]  # fmt: skip
    return _piece(legs + long + ends, joints)


@pytest.fixture(scope="session")
def door() -> Piece:
    """A frame and panel: rails tenoned into stiles, a panel grooved in all four."""
    parts = [
        _part("left stile", (0, 0, 0), (50, 20, 600), definition="stile"),
        _part("right stile", (350, 0, 0), (400, 20, 600), definition="stile"),
        _part("top rail", (50, 0, 550), (350, 20, 600)),
        _part("bottom rail", (50, 0, 0), (350, 20, 50)),
        _part("panel", (50, 5, 50), (350, 15, 550)),
    ]
    joints = [
        _joint(rail, f"{x} stile", "tenon", face)
        for rail in ("top rail", "bottom rail")
        for x, face in (("left", Face.LEFT), ("right", Face.RIGHT))
    ]
    joints += [
        _joint("panel", other, "groove", face)
        for other, face in (
            ("left stile", Face.LEFT),
            ("right stile", Face.RIGHT),
            ("top rail", Face.TOP),
            ("bottom rail", Face.BOTTOM),
        )
    ]
    return _piece(parts, joints)


@pytest.fixture(scope="session")
def drawer() -> Piece:
    """Half-blind dovetails in front, a back dadoed between the sides, a bottom grooved in from below it."""
    parts = [
        _part("front", (0, 0, 0), (400, 20, 100)),
        _part("left side", (0, 20, 0), (12, 400, 100), definition="side"),
        _part("right side", (388, 20, 0), (400, 400, 100), definition="side"),
        _part("back", (12, 388, 20), (388, 400, 100)),
        _part("bottom", (12, 20, 10), (388, 400, 16), material=PLY),
    ]
    joints = [
        _joint("left side", "front", "half-blind dovetails", Face.FRONT),
        _joint("right side", "front", "half-blind dovetails", Face.FRONT),
        _joint("back", "left side", "dado", Face.LEFT),
        _joint("back", "right side", "dado", Face.RIGHT),
        _joint("bottom", "left side", "groove", Face.LEFT),
        _joint("bottom", "right side", "groove", Face.RIGHT),
        _joint("bottom", "front", "groove", Face.FRONT),
        _joint("bottom", "back", "screws", Face.TOP),
    ]
    return _piece(parts, joints)


@pytest.fixture(scope="session")
def dry() -> Glue:
    return Glue("none")


@pytest.fixture(scope="session")
def ply() -> Material:
    return PLY


def _names() -> list[str]:
    return sorted(path.stem for path in (EXAMPLES / "shops").glob("*.yaml"))


@pytest.fixture(scope="session", params=_names())
def planned(request: pytest.FixtureRequest) -> tuple[Any, ...]:
    """(name, machined piece, cut plan, build plan, shop) of an example."""
    shop = read_shop(EXAMPLES / "shops" / f"{request.param}.yaml")
    piece = resolve(read_piece(EXAMPLES / f"{request.param}.yaml"), facts_of(shop))
    made = machine_piece(piece, shop)
    cuts = cut_plan(made, shop, seconds=0.1)
    return request.param, made, cuts, build_plan(made, cuts, shop), shop
