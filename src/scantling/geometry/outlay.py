"""All of a machined part that its shape depends on, and nothing that only names or places it.

Counted from the low corner of its box, so that equal parts standing elsewhere are equal.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from scantling.joinery.edge_runs import EdgeRun, edge_runs
from scantling.joinery.features import Addition, Cut, Hole, MachinedPart, Prism, Shaped, Trim
from scantling.piece.model import ArchWork, Axis, Box, EdgeWork, Joint, Part, Placement, Shape, Vec3, Work

DIGITS = 7  # of a millimetre: sizes that differ by less are rounding


@dataclass(frozen=True, slots=True)
class Outlay:
    """The part's box from (0, 0, 0), and its shape, work and features in that frame. Owners are blank.

    `runs`: the worked stretches of straight edges; `work`: all other work.
    """

    box: Box
    shape: Shape
    grain: Axis
    work: tuple[Work, ...] = ()
    holes: tuple[Hole, ...] = ()
    cuts: tuple[Cut, ...] = ()
    additions: tuple[Addition, ...] = ()
    shaped: tuple[Shaped, ...] = ()
    trims: tuple[Trim, ...] = ()
    runs: tuple[EdgeRun, ...] = ()


def outlay_of(machined: MachinedPart, joints: Iterable[Joint] = ()) -> Outlay:
    """What the shape of a machined part depends on, from its own corner.

    `joints` that the part is in: edge work stops at them.
    """
    part, by = machined.part, machined.part.box.low
    runs = edge_runs(part, joints) if part.shape.outline is None else ()
    return replace(
        plain_outlay(part),
        work=tuple(_work(item, by) for item in part.work if not _runs_straight(item, part)),
        holes=tuple(replace(h, at=_point(h.at, by), owner="", purpose="") for h in machined.holes),
        cuts=tuple(
            replace(c, box=_box(c.box, by), owner="", kind="") for c in machined.cuts if not _is_run(c)
        ),
        additions=tuple(replace(a, box=_box(a.box, by), owner="", kind="") for a in machined.additions),
        shaped=tuple(replace(s, prism=_prism(s.prism, by), owner="", kind="") for s in machined.shaped),
        trims=tuple(replace(t, point=_point(t.point, by), owner="") for t in machined.trims),
        runs=tuple(_run(run, by) for run in runs),
    )


def plain_outlay(part: Part) -> Outlay:
    """The shaped stick or board without any machining, from its own corner."""
    by = part.box.low
    shape, taper = part.shape, part.shape.taper
    if taper is not None:
        shape = replace(shape, taper=replace(taper, start=_less(taper.start, by[taper.end.axis])))
    return Outlay(_box(part.box, by), shape, part.grain)


def corner_placement(part: Part) -> Placement:
    """Where the part's corner stands: from the outlay's frame to the piece's."""
    return Placement(part.placement.turn, part.placement.point(part.box.low))


def _runs_straight(item: Work, part: Part) -> bool:
    return isinstance(item, EdgeWork) and part.shape.outline is None


def _is_run(cut: Cut) -> bool:
    """A rabbet along an edge that the maker asked for: made from its run, or round the outline."""
    return cut.kind == "rabbet" and cut.owner == "work"


def _run(run: EdgeRun, by: Vec3) -> EdgeRun:
    along = by[run.axis]
    return EdgeRun(replace(run.work, edges=()), run.edge, _less(run.low, along), _less(run.high, along))


def _work(item: Work, by: Vec3) -> Work:
    """Only arches say where they are; the other work that makes a shape counts from the box."""
    if isinstance(item, ArchWork):
        along = by[item.along]
        return replace(item, start=_less(item.start, along), stop=_less(item.stop, along))
    return item


def _less(at: float, by: float) -> float:
    return round(at - by, DIGITS) + 0.0


def _point(p: Vec3, by: Vec3) -> Vec3:
    return (_less(p[0], by[0]), _less(p[1], by[1]), _less(p[2], by[2]))


def _box(box: Box, by: Vec3) -> Box:
    return Box(_point(box.low, by), _point(box.high, by))


def _prism(prism: Prism, by: Vec3) -> Prism:
    u, v = (by[axis] for axis in range(3) if axis != prism.along)
    along = by[prism.along]
    profile = tuple((_less(a, u), _less(b, v)) for a, b in prism.profile)
    return Prism(prism.along, _less(prism.low, along), _less(prism.high, along), profile)
