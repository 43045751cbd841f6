"""What each part must bear: own weight, what is written, what it holds. kg and mm."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from scantling.checks.examined import Examined
from scantling.checks.ties import groups_tied
from scantling.piece.model import Axis, Box, Load, PartName

SEAT = 450.0  # mm: how far a sitting person spreads over slats; trade practice
SHELF_AIR = 300.0  # mm: how high things are heaped where nothing stands above; judgement


@dataclass(frozen=True, slots=True)
class Contents:
    """What a word like "books" weighs: `amount` kg by `basis` (a metre run, m³ or m²)."""

    word: str
    basis: str
    amount: float
    source: str


@dataclass(frozen=True, slots=True)
class Bearing:
    """Mass on one part. `lasting`: it stays for years. `spread`: evenly, else at the middle. [kg]"""

    part: PartName
    mass: float
    lasting: bool
    spread: bool
    words: str
    load: Load | None = None


@lru_cache(maxsize=2)
def bearings(examined: Examined) -> tuple[Bearing, ...]:
    """Every load and hold, shared out to the parts that carry it; pushes are left to other checks."""
    found: list[Bearing] = []
    for load in examined.piece.loads:
        found += _bearings_of(examined, load)
    for hold in examined.piece.holds:
        for name in examined.carriers(hold):
            box = examined.bounds(name)
            wide = hold.box.size(Axis.WIDE) > box.size(Axis.WIDE) / 2 or len(hold.on) > 1
            found.append(Bearing(name, hold.mass / len(hold.on), True, wide, hold.name))
    return tuple(found)


def contents_named(word: str | None) -> Contents:
    """What the words after `with` weigh; anything unknown counts as general things."""
    return _contents().get((word or "things").lower(), _contents()["things"])


def known_contents() -> tuple[str, ...]:
    """The words after `with` that have a weight of their own."""
    return tuple(_contents())


def lands_on_nothing(examined: Examined, load: Load) -> bool:
    """Whether what is filled has no flat part for it to lie on."""
    return load.kind == "fill" and not _filled_parts(examined, load)


def contents_mass(examined: Examined, name: PartName, contents: Contents) -> float:
    """Mass of those contents lying on one flat part. [kg]"""
    box = examined.bounds(name)
    wide, deep = box.size(Axis.WIDE) / 1000.0, box.size(Axis.DEEP) / 1000.0
    if contents.basis == "metre":
        return contents.amount * max(wide, deep)
    if contents.basis == "area":
        return contents.amount * wide * deep
    return contents.amount * wide * deep * _room_over(examined, name) / 1000.0


def is_flat(examined: Examined, name: PartName) -> bool:
    """Whether a part lies like a shelf: thin upward."""
    sizes = examined.bounds(name).sizes
    return sizes[Axis.HIGH] <= 0.5 * min(sizes[Axis.WIDE], sizes[Axis.DEEP])


def _bearings_of(examined: Examined, load: Load) -> list[Bearing]:
    if load.kind == "fill":
        contents = contents_named(load.contents)
        flat = _filled_parts(examined, load)
        return [
            Bearing(
                name,
                load.amount / len(flat)
                if load.amount is not None
                else contents_mass(examined, name, contents),
                True,
                True,
                load.contents or "things",
                load,
            )
            for name in flat
        ]
    if load.amount is None or load.kind == "push":
        return []
    if load.kind == "rest":
        same = len({examined.piece.part(name).definition for name in load.on}) == 1
        each = load.amount if same else load.amount / len(load.on)
        return [Bearing(name, each, True, True, "what rests on it", load) for name in load.on]
    share = load.amount * _person_share(examined, load)
    return [Bearing(name, share, False, False, "a person", load) for name in load.on]


def _filled_parts(examined: Examined, load: Load) -> list[PartName]:
    return [name for name in _bearing_parts(examined, load) if is_flat(examined, name)]


def _bearing_parts(examined: Examined, load: Load) -> tuple[PartName, ...]:
    """The parts a load names, and those that lie in or under the spaces it names."""
    boxes = [space.box for space in examined.piece.spaces if space.name in load.spaces]
    inside = [
        part.name
        for part in examined.piece.parts
        if any(_lies_in(examined.bounds(part.name), box) for box in boxes)
    ]
    return tuple(dict.fromkeys((*load.on, *inside)))


def _lies_in(part: Box, space: Box) -> bool:
    """Whether things in the space can stand on the part: its top is in it, under most of it."""
    top = part.high[Axis.HIGH]
    covers = [
        min(part.high[a], space.high[a]) - max(part.low[a], space.low[a]) > 0.5 * space.size(a)
        for a in (Axis.WIDE, Axis.DEEP)
    ]
    return all(covers) and space.low[Axis.HIGH] - 1.0 <= top < space.high[Axis.HIGH] - 1.0


def _person_share(examined: Examined, load: Load) -> float:
    """How much of a person one of several slats takes: those within a seat's breadth share."""
    count = len(load.on)
    if count == 1:
        return 1.0
    return min(1.0, max(1.0 / count, spread_of(examined, load) / max(count - 1, 1) / SEAT))


def spread_of(examined: Examined, load: Load) -> float:
    """From the middle of the first to the middle of the last of the parts a load names. [mm]"""
    boxes = [examined.bounds(name) for name in load.on]
    return max(
        max(b.high[a] for b in boxes) - min(b.low[a] for b in boxes) - boxes[0].size(a)
        for a in (Axis.WIDE, Axis.DEEP)
    )


def _room_over(examined: Examined, name: PartName) -> float:
    """Height that things may fill over a part: to the top of what it is joined to. [mm]"""
    box = examined.bounds(name)
    group = next(g for g in groups_tied(examined) if name in g)
    top = max(examined.bounds(other).high[Axis.HIGH] for other in group)
    return min(max(top - box.high[Axis.HIGH], 0.0), SHELF_AIR)


@lru_cache(maxsize=1)
def _contents() -> dict[str, Contents]:
    text = files("scantling.checks").joinpath("data", "contents.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {r["contents"]: Contents(r["contents"], r["basis"], float(r["amount"]), r["source"]) for r in rows}
