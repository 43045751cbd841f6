"""What is asked of the wood, and the answer board by board. All mm; money in the shop's currency.

On stock: x runs along the length from end "0", y across the width from the reference edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from scantling.errors import Place
from scantling.piece.model import MaterialKind, PartName


class Role(Enum):
    WHOLE = "whole"  # the part is milled from this one blank
    LAYER = "layer"  # one of several glued face to face
    STAVE = "stave"  # one of several glued edge to edge
    SEGMENT = "segment"  # of a ring or a coopered shell


@dataclass(frozen=True, slots=True)
class Blank:
    """One oversize workpiece. Finished sizes as milled (before joints); rough sizes as cut from stock.

    `part`: the copy it is for; `index` of `count` blanks of that part and role.
    `grain_fixed`: may not be turned on a sheet. `clear_faces`: how many faces must be clear (0, 1, 2).
    """

    id: str
    part: PartName
    role: Role
    index: int
    count: int
    kind: MaterialKind
    species: str
    thickness: float
    width: float
    length: float
    rough_width: float
    rough_length: float
    grain_fixed: bool = True
    clear_faces: int = 2
    label: float | None = None  # sheet marking
    nominal: str = ""  # lumber


@dataclass(frozen=True, slots=True)
class Way:
    """One way to make a part: `count` blanks of these sizes, or staves of chosen widths.

    `thickness`, `width`, `length`: of each blank as milled; for staves `width` is the sum to be reached.
    `rough_over`: how much longer (along the grain) and wider a blank is cut than it is milled.
    `stave`: least and most milled width of a stave; `counts`: least and most number of staves.
    `lap`: width each stave loses in its joint (a tongue). `axis`: along which blanks are stacked.
    `boards`: least and most thickness of the boards it may come from. `made`: numbers of the part's blanks
    that are cut already; `count`, `counts` and a stave way's `width` are what is left to cut.
    """

    role: Role
    count: int
    thickness: float
    width: float
    length: float
    rough_over: tuple[float, float]
    axis: str = ""
    stave: tuple[float, float] = (0.0, 0.0)
    counts: tuple[int, int] = (1, 1)
    lap: float = 0.0
    boards: tuple[float, float] = (0.0, math.inf)
    made: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Need:
    """One part and the ways it may be made, best liked first.

    `material`: the maker's words for it, lower case ("walnut plywood 3/4"); `species` as in `Material`.
    `only`: the stock it must come from, by the plan's names for it; empty: any. `again`: times spoiled.
    """

    part: PartName
    definition: str
    kind: MaterialKind
    species: str
    material: str
    grain_fixed: bool
    clear_faces: int
    ways: tuple[Way, ...]
    label: float | None = None
    notes: tuple[str, ...] = ()
    only: tuple[str, ...] = ()
    again: int = 0

    @property
    def blank_name(self) -> str:
        """What its blanks are called by: the part's name, and whether it is made again."""
        times = f" {self.again}" if self.again > 1 else ""
        return f"{self.part} again{times}" if self.again else self.part


@dataclass(frozen=True, slots=True)
class Unheeded:
    """Something the build record says or wishes that the plan cannot follow. `best`: what it does instead, or
    what the maker might do. `part` is "" where it is about none; `stock`: the names it is about.
    """

    part: PartName
    stock: tuple[str, ...]
    reason: str
    best: str = ""
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class GlueUp:
    """Blanks glued into one part, in order; sizes as glued, before final milling. `why`: a maker's reason."""

    part: PartName
    role: Role
    blanks: tuple[str, ...]
    axis: str  # "wide" | "deep" | "high": along which they are stacked, part's frame
    why: str = ""


@dataclass(frozen=True)
class Demand:
    """What is asked of the wood, part by part. `notes`: what the maker should know about it as a whole.

    `made`: blanks that are cut already, of parts not yet finished; `glue_ups`: of those that are cut whole.
    """

    needs: tuple[Need, ...]
    notes: tuple[str, ...] = ()
    made: tuple[Blank, ...] = ()
    glue_ups: tuple[GlueUp, ...] = ()
    unheeded: tuple[Unheeded, ...] = ()


@dataclass(frozen=True, slots=True)
class Placed:
    """A blank laid on stock: its rough rectangle."""

    blank: str
    x: float
    y: float
    length: float
    width: float


@dataclass(frozen=True, slots=True)
class SawCut:
    """One straight guillotine cut of the piece `of` (a node id) into `gives` (node ids, "" = waste).

    `across`: True for a crosscut (at x = `at`), False for a rip (at y = `at`), in stock coordinates.
    The kerf lies on the far side of `at`. `machine`: the saw's name; `setting`: stop or fence distance.
    """

    number: int
    of: str
    across: bool
    at: float
    kerf: float
    gives: tuple[str, str]
    machine: str
    setting: float


@dataclass(frozen=True, slots=True)
class Piece2D:
    """A rectangle of stock that exists at some moment while cutting."""

    id: str
    x: float
    y: float
    length: float
    width: float
    use: str  # "stock" | "part way" | "blank" | "offcut" | "waste"
    blank: str = ""
    flattened: float | None = (
        None  # brought to this thickness before it is cut further (a gang of short blanks)
    )


@dataclass(frozen=True, slots=True)
class StockLayout:
    """One board, sheet or stick: what is cut from it.

    `stock`: id in the shop, with "#2" for the second of a stack; `bought`: must be bought for this piece.
    `flat`: for boards, flat thickness each blank can reach (blank id, mm).
    """

    stock: str
    kind: MaterialKind
    species: str
    length: float
    width: float
    thickness: float
    bought: bool
    price: float
    placed: tuple[Placed, ...]
    pieces: tuple[Piece2D, ...]
    cuts: tuple[SawCut, ...]
    flat: tuple[tuple[str, float], ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unmet:
    """A blank nothing on the rack or for sale can give, and the best that can be reached."""

    blank: Blank
    reason: str
    best: str = ""


@dataclass(frozen=True, slots=True)
class Areas:
    """They add up: stock = blanks + kerf + offcuts + waste. [mm²]"""

    stock: float
    blanks: float
    kerf: float
    offcuts: float
    waste: float


@dataclass(frozen=True)
class CutPlan:
    """`money`: to be spent; `bound`: proven least money (same aim), never above `money`.

    `blanks`: to be cut; `made`: cut already, by the build record. Glue-ups take both. `weight`: value of the
    solid wood used up, leftovers worth keeping taken off, and what gluing up must save to be liked [money];
    `weight_bound`: proven least of it for that much money, 0 where it was not worked out.
    """

    blanks: tuple[Blank, ...]
    layouts: tuple[StockLayout, ...]
    glue_ups: tuple[GlueUp, ...]
    unmet: tuple[Unmet, ...]
    areas: Areas
    money: float
    bound: float
    board_feet: float
    status: str = "feasible"  # "optimal" | "feasible" | "partly impossible"
    notes: tuple[str, ...] = ()
    made: tuple[Blank, ...] = ()
    unheeded: tuple[Unheeded, ...] = ()
    weight: float = 0.0
    weight_bound: float = 0.0
