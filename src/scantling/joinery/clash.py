"""Features of different joints that meet in one part: found, shifted clear, or reported."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache

from scantling.errors import Place
from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.bounds import bounds_of, overlap, round_all, tip_of, wood_between
from scantling.joinery.features import Cut, Feature, Hole, Shaped
from scantling.joinery.made import Made
from scantling.joinery.meeting import Meeting
from scantling.piece.model import Axis, Box, Notice, Part, PartName

_PINS = frozenset({"dowel", "bolt", "nut"})
_SHALLOW = frozenset({"countersink"})
_OPEN = frozenset({"countersink", "counterbore", "pocket", "tenon"})  # these may come out of a side
_MORTISES = frozenset({"mortise", "socket"})
_LEAST_ENTRY = 0.5  # mm: less is a shaving
_STEPS = 8
_ROWS = frozenset({"dowels", "screws", "slotted screws", "pocket screws"})
_ASIDE = (0.25, 0.5, 0.75)  # of half the meeting's breadth
_SCREWS = frozenset({"screws", "slotted screws", "pocket screws"})
_ONE_HOLDS = 100.0  # mm: a meeting no longer than this may do with one screw
_ONE_AT = (0.0, 0.2, -0.2, 0.4, -0.4)  # of half its length, from the middle
_INSETS = (10.0, 20.0, 35.0, 50.0, 70.0, 90.0)  # mm
_NO_ROOM = (
    "both have no room there: join one of them another way (`with: glue`, `tenon`, or `rests` where "
    "something else holds it), or move the part"
)


@dataclass(frozen=True, slots=True)
class Clash:
    """Two features of one part with `clear` wood between them, where `wanted` is needed. [mm]"""

    part: PartName
    mine: str
    theirs: str
    owner: str
    clear: float
    wanted: float

    @property
    def lack(self) -> float:
        return self.wanted - self.clear


Bounded = tuple[Feature, Box]


@dataclass(frozen=True, slots=True)
class _Group:
    """What one owner put on one part, each feature with the box round it."""

    owner: str
    box: Box
    features: tuple[Bounded, ...]


@lru_cache(maxsize=4096)
def _group(owner: str, features: tuple[Feature, ...]) -> _Group | None:
    bounded = tuple((f, box) for f in features if (box := bounds_of(f)) is not None)
    whole = round_all(box for _, box in bounded)
    return _Group(owner, whole, bounded) if whole else None


@dataclass
class Taken:
    """What has been cut so far, by part."""

    groups: dict[PartName, list[_Group]] = field(default_factory=dict)

    def add(self, part: PartName, owner: str, features: tuple[Feature, ...]) -> None:
        group = _group(owner, features)
        if group is not None:
            self.groups.setdefault(part, []).append(group)

    def clashes(self, part: PartName, owner: str, features: tuple[Feature, ...]) -> tuple[Clash, ...]:
        """The worst clash with each other owner."""
        mine, apart = _group(owner, features), rules.number("holes apart")
        found: dict[str, Clash] = {}
        for theirs in self.groups.get(part, ()) if mine else ():
            if mine is None or theirs.owner == owner or overlap(mine.box, theirs.box) < -apart:
                continue
            for clash in _between(part, mine, theirs, apart):
                if clash.owner not in found or clash.lack > found[clash.owner].lack:
                    found[clash.owner] = clash
        return tuple(found[name] for name in sorted(found))


def _between(part: PartName, mine: _Group, theirs: _Group, apart: float) -> Iterator[Clash]:
    """Clashes of two groups; only features whose boxes come near are looked at."""
    near = [each for each in theirs.features if overlap(each[1], mine.box) >= -apart]
    for feature, box in mine.features:
        for other, other_box in near:
            clash = _clash(part, feature, other) if overlap(box, other_box) >= -apart else None
            if clash is not None:
                yield clash


def _clash(part: PartName, mine: Feature, theirs: Feature) -> Clash | None:
    match mine, theirs:
        case Hole(), Hole():
            return _of_holes(part, mine, theirs)
        case Hole(), Cut() | Shaped():
            return _of_hole_and_cut(part, mine, theirs)
        case Cut() | Shaped(), Hole():
            return _of_hole_and_cut(part, theirs, mine)
        case Cut(), Cut() if mine.kind in _MORTISES and theirs.kind in _MORTISES:
            entry = overlap(mine.box, theirs.box)
            if entry > _LEAST_ENTRY:
                return Clash(part, mine.kind, theirs.kind, theirs.owner, -entry, 0.0)
    return None


def _of_holes(part: PartName, mine: Hole, theirs: Hole) -> Clash | None:
    if mine.purpose in _SHALLOW or theirs.purpose in _SHALLOW:
        return None
    wanted = rules.number("holes apart")
    clear = wood_between(mine, theirs)
    if clear >= wanted:
        return None
    return Clash(part, f"{mine.purpose} hole", f"{theirs.purpose} hole", theirs.owner, clear, wanted)


def _of_hole_and_cut(part: PartName, hole: Hole, cut: Cut | Shaped) -> Clash | None:
    bored, block = bounds_of(hole), bounds_of(cut)
    adds = isinstance(cut, Shaped) and cut.adds
    if bored is None or block is None or adds or hole.purpose in _SHALLOW:
        return None
    entry = overlap(bored, block)
    if entry <= _LEAST_ENTRY:
        return None
    return Clash(part, f"{hole.purpose} hole", cut.kind, cut.owner, -entry, 0.0)


def clashes_of(made: Made, m: Meeting, taken: Taken) -> tuple[Clash, ...]:
    """Of a joint's features with what its two parts already hold."""
    first = taken.clashes(m.first.name, m.joint.id, made.first)
    second = taken.clashes(m.second.name, m.joint.id, made.second) if m.second else ()
    return tuple(clash for clash in first + second if clash.owner not in made.meets)


def variants(m: Meeting, made: Made) -> Iterator[Meeting]:
    """The same joint laid out elsewhere: shifted either way, drawn in, aside, less deep in the second part.

    The first way is away from the side a mirrored copy is named for, so that copies stay mirror images.
    """
    sign = _first_way(m, m.run)
    for step in range(1, _STEPS + 1 if made.slack > 0.5 else 1):
        for way in (sign, -sign):
            yield m.shifted(way * made.slack * step / _STEPS)
    if m.joint.method in _ROWS:
        yield from (m.drawn_in(inset) for inset in _INSETS if inset < m.length / 4)
    if m.joint.method == "screws":
        yield from _aside(m, made.slack)
    if m.joint.method in _SCREWS and m.settings.count is None and m.length <= _ONE_HOLDS:
        one = replace(m, joint=replace(m.joint, settings=replace(m.settings, count=1)))
        yield from (one.shifted(sign * share * m.length / 2) for share in _ONE_AT)
    if m.joint.method == "dowels":
        deep = dict(made.layout.numbers)["deep in second"] - rules.number("dowel glue space")
        for part in (0.85, 0.7, 0.55):
            yield replace(m, joint=replace(m.joint, settings=replace(m.settings, deep=deep * part)))


def _aside(m: Meeting, slack: float) -> Iterator[Meeting]:
    """Rows moved across the run, at their place along it and shifted as far as may be."""
    sign, along = _first_way(m, m.across), _first_way(m, m.run)
    for share in _ASIDE:
        for way in (sign, -sign):
            moved = m.moved_aside(way * share * m.thin / 2)
            yield from (moved.shifted(along * part * slack) for part in (0.0, 0.5, -0.5, 1.0, -1.0))


def _first_way(m: Meeting, axis: Axis) -> int:
    """+1, or -1 where the parts are the right, back or top copy along that axis."""
    words = {Axis.WIDE: "right", Axis.DEEP: "back", Axis.HIGH: "top"}
    copies = (*m.first.copy_words, *(m.second.copy_words if m.second else ()))
    return -1 if words[axis] in copies else 1


def clash_notice(clash: Clash, bench: Bench, place: Place, count: int = 0) -> Notice:
    """What a maker reads about two features that could not be kept apart; `count`: fasteners in the row."""
    others = bench.meetings.get(clash.owner)
    by = f" of the {others.joint.method}" if others and others.joint.method != clash.theirs else ""
    whose = f"{by} of {others.first.name}" if others else f" of {clash.owner}"
    where = (
        f"{bench.said(clash.clear)} apart, {bench.said(clash.wanted)} wanted"
        if clash.clear >= 0
        else f"they run {bench.said(-clash.clear)} into each other"
    )
    message = f"in {clash.part} the {clash.mine} meets the {clash.theirs}{whose}: {where}"
    must = _PINS & {clash.mine.split()[0], clash.theirs.split()[0]} or clash.theirs in _MORTISES
    away = f"move one of them, or make it shorter, by {bench.said(clash.lack)}"
    remedy = f"{away}: change `count`, `every` or `deep`" if count != 1 else _NO_ROOM
    return Notice(
        "joints clash",
        message,
        place,
        (clash.part,),
        clash.clear,
        remedy,
        must=bool(must) and clash.clear < 0,
    )


def break_outs(
    part: Part, holes: tuple[Hole, ...], bench: Bench, places: dict[str, Place]
) -> tuple[Notice, ...]:
    """Blind holes that come out of a face: the worst for each owner. Straight-sided parts only."""
    if not part.shape.is_box:
        return ()
    worst: dict[str, tuple[float, Hole]] = {}
    for hole in holes:
        out = _comes_out(part.box, hole)
        if out > _LEAST_ENTRY and out > worst.get(hole.owner, (0.0, hole))[0]:
            worst[hole.owner] = (out, hole)
    return tuple(
        Notice(
            "hole breaks out",
            f"{part.name}: the {hole.purpose} hole comes out of a face by {bench.said(out)}",
            places.get(owner, part.place),
            (part.name,),
            out,
            "use a thinner or shorter fastener, or move it in from the edge",
            must=hole.purpose != "clearance",
        )
        for owner, (out, hole) in sorted(worst.items())
    )


def _comes_out(box: Box, hole: Hole) -> float:
    """How far the bore's side or tip is outside the box; its mouth does not count."""
    if hole.purpose in _OPEN:
        return 0.0
    tip, out = tip_of(hole), 0.0
    for axis in range(3):
        d = hole.direction[axis]
        if abs(d) > 0.99:
            beyond = tip[axis] - box.high[axis] if d > 0 else box.low[axis] - tip[axis]
            out = max(out, 0.0 if hole.through else beyond)
        elif abs(d) < 0.01:
            radius = hole.diameter / 2
            out = max(out, box.low[axis] - hole.at[axis] + radius, hole.at[axis] + radius - box.high[axis])
    return out
