"""What the maker asks for on a part, as far as it is cuts and holes.

Chamfers, round-overs, bevels, arches and dishes are shapes, not cuts: the geometry takes them straight
from `Part.work`. A band makes the core smaller.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scantling.joinery.edge_runs import EdgeRun, drop_of, edge_runs, slice_of
from scantling.joinery.features import Cut, Feature, Hole
from scantling.piece.model import (
    Axis,
    BandWork,
    Box,
    EdgeKind,
    EdgeWork,
    Face,
    GrooveWork,
    HoleWork,
    Joint,
    NotchWork,
    Part,
    PinRowsWork,
    SlotWork,
    Vec3,
    Work,
)

OWNER = "work"


def work_features(part: Part, joints: Iterable[Joint] = ()) -> tuple[Feature, ...]:
    """Holes and cuts of every entry under `work`, in order; rabbets stop where a joint face begins."""
    rabbets = [run for run in edge_runs(part, joints) if run.work.kind is EdgeKind.RABBET]
    return tuple(
        feature
        for work in part.work
        for feature in (
            [_edge_rabbet(part.box, run) for run in rabbets if run.work is work]
            if isinstance(work, EdgeWork)
            else _features(part.box, work)
        )
    )


def core_box(part: Part, cut_box: Box) -> Box | None:
    """`cut_box` less the lippings; None where there are none."""
    bands = [work for work in part.work if isinstance(work, BandWork)]
    core = cut_box
    for band in bands:
        axis, low, high = band.face.axis, core.low[band.face.axis], core.high[band.face.axis]
        core = core.with_span(
            axis,
            low + (band.thick if band.face.sign < 0 else 0),
            high - (band.thick if band.face.sign > 0 else 0),
        )
    return core if bands else None


def _features(box: Box, work: Work) -> Iterator[Feature]:
    match work:
        case GrooveWork():
            yield _groove(box, work)
        case HoleWork():
            deep = work.deep if work.deep is not None else box.size(work.face.axis)
            direction = work.face.opposite.normal
            yield Hole(work.at, direction, work.diameter, deep, "hole", OWNER, through=work.deep is None)
        case SlotWork():
            yield _slot(box, work)
        case NotchWork():
            yield Cut(work.box, _open_face(box, work.box), "notch", OWNER)
        case PinRowsWork():
            yield from _pins(box, work)
        case _:
            return


def _edge_rabbet(box: Box, run: EdgeRun) -> Cut:
    """`size` in from the edge over the run's face, its drop down from it."""
    block = slice_of(box.with_span(run.axis, run.low, run.high), run.beside, run.work.size)
    return Cut(slice_of(block, run.over, drop_of(run.work)), run.over, "rabbet", OWNER)


def _groove(box: Box, work: GrooveWork) -> Cut:
    across = next(a for a in Axis if a not in (work.along, work.face.axis))
    start = work.start if work.start is not None else box.low[work.along]
    stop = work.stop if work.stop is not None else box.high[work.along]
    block = box.with_span(work.along, start, stop).with_span(across, work.low, work.high)
    return Cut(slice_of(block, work.face, work.deep), work.face, "groove", OWNER)


def _slot(box: Box, work: SlotWork) -> Cut:
    across = next(a for a in Axis if a not in (work.along, work.face.axis))
    at, deep = work.at, work.deep if work.deep is not None else box.size(work.face.axis)
    block = box.with_span(work.along, at[work.along] - work.long / 2, at[work.along] + work.long / 2)
    block = block.with_span(across, at[across] - work.wide / 2, at[across] + work.wide / 2)
    return Cut(slice_of(block, work.face, deep), work.face, "slot", OWNER, round_ends=True)


def _open_face(box: Box, block: Box) -> Face:
    """The face a notch is open to: the one it lies flush with and goes least deep from."""
    flush = [f for f in Face if abs(block.face(f) - box.face(f)) < 0.05]
    return min(flush or list(Face), key=lambda f: block.size(f.axis))


def _pins(box: Box, work: PinRowsWork) -> Iterator[Hole]:
    for row in work.rows:
        for place in work.places:
            at = [0.0, 0.0, 0.0]
            at[work.face.axis], at[work.across], at[work.run] = box.face(work.face), row, place
            yield _pin(work, (at[0], at[1], at[2]))


def _pin(work: PinRowsWork, at: Vec3) -> Hole:
    return Hole(at, work.face.opposite.normal, work.diameter, work.deep, "pin", OWNER)
