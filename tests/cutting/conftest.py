"""Hand-made parts, boards and shops for the cutting tests."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from types import ModuleType

import pytest

from scantling.errors import Place
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece import read_record_text
from scantling.piece.model import Axis, Box, Built, Face, Material, MaterialKind, Part, Piece
from scantling.quantity import LengthUnit
from scantling.shop.model import (
    Board,
    BoardForSale,
    Defect,
    Lumber,
    Machine,
    MachineKind,
    Sheet,
    Shop,
    Surface,
    Warp,
)

HERE = Place("test", 1, 1)
STRAIGHT = Warp()


@dataclass(frozen=True)
class Make:
    """Builders with the fewest words; parts lie with the grain along `wide` and are thin in `high`."""

    @staticmethod
    def part(
        name: str,
        length: float,
        width: float,
        thickness: float,
        *,
        species: str = "cherry, black",
        kind: MaterialKind = MaterialKind.SOLID,
        text: str = "cherry",
        label: float | None = None,
        built: Built | None = None,
        show: frozenset[Face] | None = None,
    ) -> MachinedPart:
        box = Box((0.0, 0.0, 0.0), (length, width, thickness))
        material = Material("wood", text, kind, species, label=label)
        part = Part(name, name, box, material, Axis.WIDE, HERE, built=built, show=show)
        return MachinedPart(part, box)

    @staticmethod
    def piece(*parts: MachinedPart) -> MachinedPiece:
        box = Box((0.0, 0.0, 0.0), (1000.0, 1000.0, 1000.0))
        return MachinedPiece(Piece("test", LengthUnit.MM, box, tuple(p.part for p in parts)), tuple(parts))

    @staticmethod
    def noted(machined: MachinedPiece, lines: str) -> MachinedPiece:
        """The piece with a build record; sizes in mm. Parts by their full names."""
        record = read_record_text(f"build: test\n{lines}\n", "test.build.yaml", LengthUnit.MM)
        return replace(machined, piece=replace(machined.piece, record=record))

    @staticmethod
    def board(
        name: str = "board 1",
        length: float = 2400.0,
        width: float = 180.0,
        thickness: float = 25.4,
        *,
        warp: Warp = STRAIGHT,
        species: str = "cherry",
        defects: tuple[Defect, ...] = (),
        surface: Surface = Surface.ROUGH,
        end_waste: float = 25.0,
        owned: bool = True,
        price: float = 0.0,
    ) -> Board:
        return Board(
            name,
            species,
            length,
            width,
            thickness,
            surface,
            warp,
            HERE,
            defects=defects,
            owned=owned,
            price=price,
            end_waste=end_waste,
        )

    @staticmethod
    def sold(name: str = "cherry 4/4", thickness: float = 25.4, price: float = 8.0) -> BoardForSale:
        return BoardForSale(name, "cherry", "4/4", thickness, 177.8, 2438.4, Surface.ROUGH, price, HERE)

    @staticmethod
    def sheet(
        name: str = "ply", count: int = 1, length: float = 2440.0, width: float = 1220.0, price: float = 60.0
    ) -> Sheet:
        return Sheet(name, "birch plywood", 18.0, 17.6, length, width, HERE, count, price=price)

    @staticmethod
    def stick(name: str = "2x4", length: float = 2438.4, count: int | None = None) -> Lumber:
        return Lumber(name, "pine", "2x4", 38.1, 88.9, length, HERE, count, price=5.0)

    @staticmethod
    def shop(*stock: object, machines: Iterable[Machine] | None = None) -> Shop:
        def of(kind: type) -> tuple:
            return tuple(s for s in stock if isinstance(s, kind))

        return Shop(
            "test",
            LengthUnit.MM,
            of(Board),
            of(Sheet),
            of(Lumber),
            of(BoardForSale),
            tuple(Make.machines() if machines is None else machines),
        )

    @staticmethod
    def machines() -> tuple[Machine, ...]:
        return (
            Machine("table saw", MachineKind.TABLE_SAW, HERE, kerf=3.2),
            Machine("circular saw", MachineKind.CIRCULAR_SAW, HERE, kerf=2.0),
            Machine(
                "planer",
                MachineKind.PLANER,
                HERE,
                most_width=317.0,
                most_thickness=152.0,
                least_length=300.0,
                snipe=50.0,
                sled=True,
                sled_thickness=38.0,
            ),
        )


@pytest.fixture(scope="session")
def racks() -> ModuleType:
    """The seeded generator of racks and demands that the benchmark uses too."""
    path = Path(__file__).parents[2] / "benchmarks" / "cutting" / "racks.py"
    spec = importlib.util.spec_from_file_location("generated_racks", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def make() -> type[Make]:
    return Make
