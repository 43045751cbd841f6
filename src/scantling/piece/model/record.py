"""The build record: what was measured, wished and done while building one piece."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from scantling.errors import Place
from scantling.piece.model.boxes import Axis
from scantling.piece.model.parts import PartName
from scantling.quantity.kinds import MM_PER_INCH, LengthUnit

_ONE_OF_SEVERAL = re.compile(r"(?P<part>.+) (?P<role>layer|stave|segment) (?P<number>\d+)")


class GrainWish(Enum):
    """Whether a part may be turned on a sheet, its grain across the sheet's."""

    STAYS = "stays"
    MAY_TURN = "may turn"


class StockUse(Enum):
    LEAVE = "leave"  # keep it for something else
    CUT = "cut"  # it is cut up: its blanks exist, and its offcuts stand on the rack


@dataclass(frozen=True, slots=True)
class Measured:
    """One part as built and as wished. `sizes` in mm by axis, between shoulders; `cut`: it cannot change.

    `bare`: axes whose number says no unit in a record that says none; its size here is as of inches, and in a
    piece in mm `resolve` takes it in mm. `stock`: boards or sheets it may come from (none named: any).
    `spoiled`: how many times it was made and lost.
    """

    part: PartName
    sizes: tuple[tuple[Axis, float], ...]
    cut: bool
    place: Place
    bare: frozenset[Axis] = frozenset()
    stock: tuple[str, ...] = ()
    spoiled: int = 0
    grain: GrainWish | None = None


@dataclass(frozen=True, slots=True)
class Length:
    """A length in a record. `bare`: it says no unit and the record says none; `mm` is then as of inches."""

    mm: float
    bare: bool = False

    def within(self, unit: LengthUnit) -> float:
        """In a piece of that unit. [mm]"""
        return self.mm / MM_PER_INCH if self.bare and unit is LengthUnit.MM else self.mm


@dataclass(frozen=True, slots=True)
class CutBlank:
    """A blank that was cut. `name`: the part's, with "layer 2", "stave 3" or "segment 4" after it where it is
    one of several. Sizes as cut; `thick` as it is, or is to be, milled.
    """

    name: str
    long: Length
    wide: Length
    thick: Length
    place: Place

    @property
    def part(self) -> PartName:
        """The part it is for, if that is not itself called so."""
        found = _ONE_OF_SEVERAL.fullmatch(self.name)
        return found["part"] if found else self.name

    def number_for(self, part: PartName) -> tuple[str, int] | None:
        """Its role and number among the blanks of that part ("", 1 for the only one); None if not its."""
        if self.name == part:
            return "", 1
        found = _ONE_OF_SEVERAL.fullmatch(self.name)
        if found is None or found["part"] != part:
            return None
        return found["role"], int(found["number"])


@dataclass(frozen=True, slots=True)
class Offcut:
    """What was left of a board or sheet: its size, and how far from end and edge it lay, if that is said."""

    long: Length
    wide: Length
    at: tuple[Length, Length] | None
    place: Place


@dataclass(frozen=True, slots=True)
class StockRecord:
    """What became of one board, sheet or stick, `stock` as the plan names it ("W7", "P3#2")."""

    stock: str
    use: StockUse
    place: Place
    blanks: tuple[CutBlank, ...] = ()
    left: tuple[Offcut, ...] = ()


@dataclass(frozen=True, slots=True)
class BuildRecord:
    name: str = ""
    measured: tuple[Measured, ...] = ()
    stock: tuple[StockRecord, ...] = ()

    def of(self, part: PartName) -> Measured | None:
        """What is noted of a part, by its full name."""
        return next((noted for noted in self.measured if noted.part == part), None)

    def standing(self, part: PartName) -> tuple[CutBlank, ...]:
        """Blanks cut for a part and not lost since, in the order they were cut."""
        noted = self.of(part)
        makings = self.makings(part)[noted.spoiled if noted else 0 :]
        return tuple(blank for making in makings for blank in making)

    def makings(self, part: PartName) -> list[list[CutBlank]]:
        """Blanks cut for a part; each time one is cut that was cut before, the part is begun again."""
        makings: list[list[CutBlank]] = []
        cut = (b for used in self.stock for b in used.blanks if b.number_for(part) is not None)
        for blank in cut:
            if not makings or any(blank.name == before.name for before in makings[-1]):
                makings.append([])
            makings[-1].append(blank)
        return makings


NO_RECORD = BuildRecord()
