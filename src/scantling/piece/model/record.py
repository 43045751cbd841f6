"""The build record: what was measured, wished and done while building one piece."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from scantling.errors import Place
from scantling.piece.model.boxes import Axis
from scantling.piece.model.parts import PartName
from scantling.quantity.kinds import MM_PER_INCH, LengthUnit

_AFTER = r"(?P<again> again(?: (?P<times>\d+))?)?(?: (?P<role>layer|stave|segment) (?P<number>\d+))?"
_AFTER_PART = re.compile(_AFTER)
_BLANK_NAME = re.compile(rf"(?P<part>.+?){_AFTER}")


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
class BlankNumber:
    """`again`: how many times its part had been spoiled when it was planned. `role` "": the only one."""

    again: int
    role: str
    number: int


@dataclass(frozen=True, slots=True)
class CutBlank:
    """A blank that was cut. Sizes as cut; `thick` as it is, or is to be, milled.

    `name`: the part's; where it is for a part made again, "again" (or "again 2") after it; and "layer 2",
    "stave 3" or "segment 4" where it is one of several.
    """

    name: str
    long: Length
    wide: Length
    thick: Length
    place: Place

    @property
    def part(self) -> PartName:
        """The part it is for, if that is not itself called so."""
        found = _BLANK_NAME.fullmatch(self.name)
        return found["part"] if found else self.name

    def number_for(self, part: PartName) -> BlankNumber | None:
        """Which blank of that part it is; None if it is for another."""
        if not self.name.startswith(part):
            return None
        found = _AFTER_PART.fullmatch(self.name[len(part) :])
        if found is None:
            return None
        times = int(found["times"] or 1) if found["again"] else 0
        return BlankNumber(times, found["role"] or "", int(found["number"] or 1))


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

    def standing(self, part: PartName, spoiled: int) -> tuple[CutBlank, ...]:
        """Blanks cut for a part that was spoiled so many times, and not lost with it; the last of each name.

        A blank is of the making it names ("again 2"), else of the first that has none of its name yet.
        """
        cut = [b for used in self.stock for b in used.blanks if b.number_for(part) is not None]
        names = [blank.name for blank in cut]
        standing = {
            blank.name: blank
            for at, blank in enumerate(cut)
            if _making(blank, part, names[:at].count(blank.name)) >= spoiled
        }
        return tuple(standing.values())


def _making(blank: CutBlank, part: PartName, same_before: int) -> int:
    numbered = blank.number_for(part)
    return max(numbered.again if numbered else 0, same_before)


NO_RECORD = BuildRecord()
