"""Boards as drawings to scale: where each thing stands, in mm along and across. No pixel is known here."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from scantling.desk.rack.words import (
    defect_told,
    number,
    price_words,
    size_words,
    surface_words,
    warp_words,
)
from scantling.quantity import LengthUnit
from scantling.quantity.kinds import MM_PER_INCH
from scantling.shop.model import Board, Shop
from scantling.shop.stations import profile_of

EXAGGERATIONS = (50, 20, 10, 5, 2, 1)
DEEPEST_BOW = 110.0  # mm of drawing


@dataclass(frozen=True, slots=True)
class Mark:
    """A defect on the drawing [mm]. `number`: its place among the board's, from 1."""

    number: int
    kind: str
    face: str
    x: float
    y: float
    wide: float
    high: float
    words: str

    @property
    def round(self) -> bool:
        """Whether it is drawn as an oval."""
        return self.kind in ("knot", "sound knot", "hole")

    @property
    def hatch(self) -> str:
        """The name of its pattern."""
        return self.kind.replace(" ", "-")


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark of the rule along the board [mm]."""

    at: float
    words: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """One board. `share`: its length as a percentage of the longest; `side`: its face from the side, a path.

    `under` and `over`: how far that lies below and above the string. [mm of drawing]
    """

    id: str
    size: str
    sold_as: str
    warp: str
    price: str
    figure: str
    share: float
    length: float
    width: float
    ends: float
    side: str
    under: float
    over: float
    marks: tuple[Mark, ...]
    ticks: tuple[Tick, ...]
    photo: str = ""  # digest of its picture; "" where there is none


@dataclass(frozen=True, slots=True)
class Stack:
    """Boards of one wood and thickness, longest first."""

    name: str
    boards: tuple[Drawn, ...]


@dataclass(frozen=True, slots=True)
class Wall:
    """The whole rack; `deeper`: how many times deeper bows are drawn."""

    stacks: tuple[Stack, ...]
    deeper: int
    count: int


def wall_of(shop: Shop, photos: dict[str, str]) -> Wall:
    """All boards, by wood and then by thickness. `photos`: digests by board."""
    deeper = exaggeration(shop.boards)
    longest = max((board.length for board in shop.boards), default=1.0)
    ordered = sorted(shop.boards, key=lambda b: (b.species, b.nominal, b.surface.value, -b.length, b.id))
    stacks = tuple(
        Stack(name, tuple(drawn(b, shop, longest, deeper, photos.get(b.id, "")) for b in boards))
        for name, boards in groupby(ordered, key=lambda b: f"{b.species}, {surface_words(b)}")
    )
    return Wall(stacks, deeper, len(shop.boards))


def exaggeration(boards: tuple[Board, ...]) -> int:
    """A round number of times that still lets the worst bow fit."""
    worst = max((abs(gap) for board in boards for _, gap in _gaps(board)), default=0.0)
    return next(times for times in EXAGGERATIONS if worst * times <= DEEPEST_BOW or times == 1)


def _gaps(board: Board) -> tuple[tuple[float, float], ...]:
    """Places along a board and how far its face lies under a string from end to end. [mm]"""
    if board.stations:
        return tuple((s.at, s.gap) for s in profile_of(board))
    return ((0.0, 0.0), (board.length / 2, board.warp.bow), (board.length, 0.0))


def _side(board: Board, deeper: int) -> str:
    """An even bend as a curve, a board told at stations straight from one to the next."""
    (x0, y0), *others = [(round(x, 1), round(gap * deeper, 1)) for x, gap in _gaps(board)]
    if board.stations:
        return f"M{x0} {y0}" + "".join(f"L{x} {y}" for x, y in others)
    (middle, deep), (end, _) = others
    return f"M{x0} {y0}Q{middle} {2 * deep} {end} 0"


def drawn(board: Board, shop: Shop, longest: float, deeper: int, photo: str = "") -> Drawn:
    """One board as drawn."""
    return Drawn(
        id=board.id,
        size=size_words(board, shop),
        sold_as=f"{board.species}, {surface_words(board)}",
        warp=warp_words(board, shop),
        price=price_words(board, shop),
        figure=board.figure,
        share=round(100 * board.length / longest, 1),
        length=board.length,
        width=board.width,
        ends=min(board.end_waste, board.length / 2),
        side=_side(board, deeper),
        under=round(max(0.0, *(gap for _, gap in _gaps(board))) * deeper, 1),
        over=round(-min(0.0, *(gap for _, gap in _gaps(board))) * deeper, 1),
        marks=_marks(board, shop),
        ticks=_ticks(board, shop),
        photo=photo,
    )


def _marks(board: Board, shop: Shop) -> tuple[Mark, ...]:
    return tuple(
        Mark(
            number=i,
            kind=each.kind,
            face=each.face.value,
            x=each.from_end,
            y=each.from_edge,
            wide=each.to_end - each.from_end,
            high=each.to_edge - each.from_edge,
            words=defect_told(each, board, shop),
        )
        for i, each in enumerate(board.defects, 1)
    )


def _ticks(board: Board, shop: Shop) -> tuple[Tick, ...]:
    step = 12 * MM_PER_INCH if shop.unit is LengthUnit.INCHES else 250.0
    return tuple(Tick(i * step, number(i * step, shop)) for i in range(int(board.length / step) + 1))
