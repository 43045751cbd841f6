"""Pieces written from the documentation alone, each looked at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from scantling.checks import check_piece
from scantling.checks.finding import Finding
from scantling.geometry import Mass, Scene, mass_of, scene_of
from scantling.joinery import machine_piece
from scantling.joinery.features import MachinedPiece
from scantling.piece import read_piece, resolve
from scantling.piece.model import Axis, Piece
from scantling.plan import Plan, make_plan
from scantling.shop import default_shop, facts_of, read_shop
from scantling.shop.model import Shop

PIECES = Path(__file__).parent / "pieces"


@dataclass(frozen=True)
class Looked:
    """A piece as resolved, laid out and checked, without the boards."""

    piece: Piece
    shop: Shop
    machined: MachinedPiece
    scene: Scene
    findings: tuple[Finding, ...]

    @property
    def mass(self) -> Mass:
        return mass_of(self.scene)

    @property
    def musts(self) -> set[str]:
        return {finding.code for finding in self.findings if finding.must_fix}

    @property
    def codes(self) -> set[str]:
        return {finding.code for finding in self.findings}

    def finding(self, code: str) -> Finding:
        found = [finding for finding in self.findings if finding.code == code]
        assert len(found) == 1, f"{code}: {len(found)} of {sorted(self.codes)}"
        return found[0]

    def inches(self, part: str) -> tuple[float, float, float]:
        wide, deep, high = self.piece.part(part).box.sizes
        return (wide / 25.4, deep / 25.4, high / 25.4)

    def overall(self, part: str) -> float:
        return self.machined.by_name[part].overall_length

    def cut(self, part: str, axis: Axis) -> float:
        return self.machined.by_name[part].cut_box.size(axis)


@cache
def _looked(name: str, shop: str, settings: tuple[tuple[str, str], ...]) -> Looked:
    have = read_shop(PIECES / "shops" / f"{shop}.yaml") if shop else default_shop()
    piece = resolve(read_piece(PIECES / f"{name}.yaml"), facts_of(have), settings=dict(settings))
    machined = machine_piece(piece, have)
    scene = scene_of(machined)
    return Looked(piece, have, machined, scene, check_piece(machined, scene, have))


@cache
def _planned(name: str, shop: str) -> Plan:
    have = read_shop(PIECES / "shops" / f"{shop}.yaml") if shop else default_shop()
    return make_plan(read_piece(PIECES / f"{name}.yaml"), have)


@pytest.fixture(scope="session")
def look() -> Callable[..., Looked]:
    """`look("night-table", shop="shed", drop="1 3/4")`: the piece in that shop, with those settings."""

    def look_at(name: str, shop: str = "", **settings: str) -> Looked:
        return _looked(name, shop, tuple(sorted(settings.items())))

    return look_at


@pytest.fixture(scope="session")
def pieces() -> Path:
    return PIECES


@pytest.fixture(scope="session")
def planned() -> Callable[..., Plan]:
    """`planned("stick-bench", "sticks")`: the whole plan."""
    return lambda name, shop="": _planned(name, shop)
