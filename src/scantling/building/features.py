"""What one set-up cuts, in a line: bit, width, depth, distance from the edge, how many."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from scantling.building.bench import Bench, grouped
from scantling.building.naming import numbered
from scantling.joinery.features import Cut, Hole, MachinedPart
from scantling.piece.model import Axis, Box, Face, PartName


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting of a tool and the part it is used on."""

    noun: str
    words: str
    part: PartName


def settings_of(bench: Bench, owners: frozenset[str], parts: Iterable[PartName]) -> tuple[str, ...]:
    """`24 dowel holes 3/8 in, 1 1/16 in deep, in 4 legs`, for what these joints put on these parts."""
    found = [s for name in parts for s in _settings(bench, bench.machined_part(name), owners)]
    return tuple(
        f"{numbered(len(same), noun)}{words and f' {words},'} in {bench.names.counted(s.part for s in same)}"
        for (noun, words), same in grouped(found, lambda s: (s.noun, s.words)).items()
    )


def feature_count(bench: Bench, owners: frozenset[str], parts: Iterable[PartName]) -> int:
    """How many holes and cuts these joints make. Prisms and additions of one joint end count as one."""
    return sum(1 for name in parts for _ in _settings(bench, bench.machined_part(name), owners))


def _settings(bench: Bench, machined: MachinedPart, owners: frozenset[str]) -> Iterator[Setting]:
    for hole in machined.holes:
        if hole.owner in owners:
            yield Setting(f"{hole.purpose} hole", _hole(bench, hole), machined.name)
    for cut in machined.cuts:
        if cut.owner in owners:
            yield Setting(cut.kind, _cut(bench, cut, machined.part.box), machined.name)
    ends = {(s.kind, s.face, s.owner) for s in machined.shaped if s.owner in owners}
    for kind, _, _ in sorted(ends, key=str):
        yield Setting(kind, "", machined.name)


def _hole(bench: Bench, hole: Hole) -> str:
    depth = "through" if hole.through else f"{bench.show(hole.deep)} deep"
    return f"{bench.show(hole.diameter)}, {depth}"


def _cut(bench: Bench, cut: Cut, part: Box) -> str:
    wide, long = _across(cut.box, cut.face)
    deep = cut.box.size(cut.face.axis)
    edge, face = _edge_distance(cut.box, part, wide)
    run = f" x {bench.number(cut.box.size(long))} long" if _is_stopped(cut.box, part, long) else ""
    place = f", {bench.show(edge)} from the {face.word} edge" if edge > 0.05 else ""
    return f"{bench.number(cut.box.size(wide))}{run}, {bench.show(deep)} deep{place}"


def _across(box: Box, face: Face) -> tuple[Axis, Axis]:
    """The narrow and the long axis of a cut, seen on the face it is cut from."""
    a, b = (axis for axis in Axis if axis is not face.axis)
    return (a, b) if box.size(a) <= box.size(b) else (b, a)


def _is_stopped(box: Box, part: Box, long: Axis) -> bool:
    return box.size(long) < part.size(long) - 1.0


def _edge_distance(box: Box, part: Box, axis: Axis) -> tuple[float, Face]:
    """Distance of the cut's near side from the nearer edge of the part."""
    low, high = box.low[axis] - part.low[axis], part.high[axis] - box.high[axis]
    faces = [face for face in Face if face.axis is axis]
    return min((low, faces[0]), (high, faces[1]), key=lambda pair: (round(pair[0], 2), pair[1].sign))
