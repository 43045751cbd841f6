"""A second round of pieces written from the documentation alone; every answer was worked by hand first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from scantling.checks import check_piece
from scantling.checks.finding import Finding
from scantling.geometry import Mass, mass_of, scene_of
from scantling.joinery import machine_piece
from scantling.joinery.features import MachinedPiece
from scantling.piece import NO_RECORD, read_piece, read_record, resolve
from scantling.piece.model import Piece
from scantling.plan import Plan, make_plan
from scantling.shop import default_shop, facts_of, read_shop
from scantling.shop.model import Shop

FOLDER = Path(__file__).parent / "pieces"


@dataclass(frozen=True)
class Seen:
    """A piece resolved, laid out and checked, without its boards."""

    piece: Piece
    machined: MachinedPiece
    mass: Mass
    findings: tuple[Finding, ...]

    @property
    def musts(self) -> set[str]:
        return {finding.code for finding in self.findings if finding.must_fix}

    @property
    def codes(self) -> set[str]:
        return {finding.code for finding in self.findings}

    def all(self, code: str) -> list[Finding]:
        return [finding for finding in self.findings if finding.code == code]

    def middle(self, part: str) -> tuple[float, ...]:
        found = self.piece.part(part)
        return tuple(found.placement.point(found.box.centre))


def shop_named(name: str) -> Shop:
    return read_shop(FOLDER / "shops" / f"{name}.yaml") if name else default_shop()


@cache
def seen(name: str, shop: str, record: str, settings: tuple[tuple[str, str], ...]) -> Seen:
    have = shop_named(shop)
    kept = read_record(FOLDER / f"{record}.build.yaml") if record else NO_RECORD
    piece = resolve(read_piece(FOLDER / f"{name}.yaml"), facts_of(have), kept, dict(settings))
    machined = machine_piece(piece, have)
    scene = scene_of(machined)
    return Seen(piece, machined, mass_of(scene), check_piece(machined, scene, have))


@pytest.fixture(scope="session")
def see() -> Callable[..., Seen]:
    """`see("kitchen-table", holding="buttons")`: the piece with those settings."""

    def see_it(name: str, shop: str = "", record: str = "", **settings: str) -> Seen:
        named = {key.replace("_", " "): value for key, value in settings.items()}
        return seen(name, shop, record, tuple(sorted(named.items())))

    return see_it


@cache
def whole(name: str, shop: str) -> Plan:
    return make_plan(read_piece(FOLDER / f"{name}.yaml"), shop_named(shop))


@pytest.fixture(scope="session")
def plan_of() -> Callable[..., Plan]:
    return lambda name, shop="": whole(name, shop)


@pytest.fixture(scope="session")
def here() -> Path:
    return FOLDER
