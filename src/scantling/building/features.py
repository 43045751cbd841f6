"""What one set-up cuts, in a line: bit, width, depth, distances from one edge, how many."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from scantling.building.bench import Bench, grouped
from scantling.building.naming import numbered
from scantling.joinery.features import Cut, Hole, MachinedPart
from scantling.piece.model import TOUCH, Axis, Box, Face, PartName

NEAR_EDGE = 40.0  # mm: a cut this near the far edge is set from there; all others from the near edge


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting of a tool, where it cuts (`place` mm in from `edge`), and the part it is used on."""

    noun: str
    words: str
    part: PartName
    place: float = 0.0
    edge: Face | None = None


def settings_of(bench: Bench, owners: frozenset[str], parts: Iterable[PartName]) -> tuple[str, ...]:
    """`24 dowel holes 3/8 in, 1 1/16 in deep, in 4 legs`, for what these joints put on these parts."""
    found = [s for name in parts for s in _settings(bench, bench.machined_part(name), owners)]
    same = grouped(found, lambda s: (s.noun, s.words, s.edge))
    return tuple(_line(bench, settings) for settings in same.values())


def _line(bench: Bench, same: Sequence[Setting]) -> str:
    first = same[0]
    words = f" {first.words}," if first.words else ""
    line = f"{numbered(len(same), first.noun)}{words} in {bench.names.counted(s.part for s in same)}"
    if first.edge is None:
        return line
    places = {bench.number(s.place): s.place for s in sorted(same, key=lambda s: s.place)}
    return f"{line}, {bench.series(tuple(places.values()))} from the {first.edge.word} edge"


def feature_count(bench: Bench, owners: frozenset[str], parts: Iterable[PartName]) -> int:
    """How many holes and cuts these joints make. The prisms of one joint end count as one."""
    return sum(1 for name in parts for _ in _settings(bench, bench.machined_part(name), owners))


def _settings(bench: Bench, machined: MachinedPart, owners: frozenset[str]) -> Iterator[Setting]:
    for hole in machined.holes:
        if hole.owner in owners:
            yield Setting(f"{hole.purpose} hole", _hole(bench, hole), machined.name)
    for cut in _runs([cut for cut in machined.cuts if cut.owner in owners]):
        yield _cut(bench, cut, machined)
    ends = {(s.kind, s.face.word, s.owner) for s in machined.shaped if s.owner in owners}
    for kind, _, _ in sorted(ends):
        yield Setting(kind, "", machined.name)


def _hole(bench: Bench, hole: Hole) -> str:
    depth = "through" if hole.through else f"{bench.show(hole.deep)} deep"
    return f"{bench.show(hole.diameter)}, {depth}"


def _runs(cuts: Iterable[Cut]) -> list[Cut]:
    """Cuts that lie end to end along one line are one pass of the tool."""
    runs: list[Cut] = []
    for cut in sorted(cuts, key=lambda cut: (cut.kind, cut.face.word, cut.box.low)):
        at = next((i for i, run in enumerate(runs) if _follows(run, cut)), None)
        if at is None:
            runs.append(cut)
        else:
            runs[at] = replace(runs[at], box=_hull(runs[at].box, cut.box))
    return runs


def _follows(run: Cut, cut: Cut) -> bool:
    """Whether `cut` goes on where `run` ends, with the same section."""
    if (run.kind, run.face) != (cut.kind, cut.face) or run.box.intersection(cut.box) is None:
        return False
    same = [axis for axis in Axis if _same_span(run.box, cut.box, axis)]
    return len(same) == 2 and cut.face.axis in same


def _same_span(a: Box, b: Box, axis: Axis) -> bool:
    return abs(a.low[axis] - b.low[axis]) < TOUCH and abs(a.high[axis] - b.high[axis]) < TOUCH


def _hull(a: Box, b: Box) -> Box:
    low, high = tuple(map(min, a.low, b.low)), tuple(map(max, a.high, b.high))
    return Box((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _cut(bench: Bench, cut: Cut, machined: MachinedPart) -> Setting:
    part = machined.part.box
    wide, long = _across(cut.box, cut.face)
    stopped = cut.box.size(long) < part.size(long) - 1.0
    run = f" x {bench.number(cut.box.size(long))} long" if stopped else ""
    words = f"{bench.number(cut.box.size(wide))}{run}, {bench.show(cut.box.size(cut.face.axis))} deep"
    place, edge = _from_edge(cut.box, part, wide)
    return Setting(cut.kind, words, machined.name, place, edge if place > TOUCH else None)


def _across(box: Box, face: Face) -> tuple[Axis, Axis]:
    """The narrow and the long axis of a cut, seen on the face it is cut from."""
    a, b = (axis for axis in Axis if axis is not face.axis)
    return (a, b) if box.size(a) <= box.size(b) else (b, a)


def _from_edge(box: Box, part: Box, axis: Axis) -> tuple[float, Face]:
    """How far in the cut begins: from the low edge, unless it lies close to the high one."""
    low, high = box.low[axis] - part.low[axis], part.high[axis] - box.high[axis]
    first, last = (face for face in Face if face.axis is axis)
    return (max(high, 0.0), last) if high < min(low, NEAR_EDGE) else (max(low, 0.0), first)
