"""Shape given to square parts: ends of leaning sticks; then, after the joints, tapers, outlines, edges."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import atan, degrees, hypot

from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.draft import Draft
from scantling.building.tables import minutes
from scantling.piece.model import (
    ArchWork,
    Axis,
    BuildKind,
    DishWork,
    Edge,
    EdgeKind,
    EdgeWork,
    GrooveWork,
    HoleWork,
    NotchWork,
    Outline,
    OutlineKind,
    Part,
    PinRowsWork,
    Section,
    SlotWork,
    Work,
)
from scantling.quantity import format_angle
from scantling.shop.model import MachineKind

M = MachineKind


@dataclass(frozen=True, slots=True)
class _Shaping:
    """One thing done to one part; equal ones on copies are one step."""

    verb: str
    detail: str
    text: str
    check: str
    operation: str
    amount: float
    machines: tuple[MachineKind, ...]


def early_shaping(bench: Bench) -> Iterator[Draft]:
    """What joints are marked from: level ends of leaning sticks, and rings with their curved faces."""
    yield from _steps(bench, _lean)
    yield from _steps(bench, _ring)


def shaping(bench: Bench) -> Iterator[Draft]:
    """Everything that takes away the square reference faces, after the joints are cut."""
    for ask in (_work, _outline, _section, _taper, _edges):
        yield from _steps(bench, ask)


def _steps(bench: Bench, ask: Callable[[Bench, Part], Sequence[_Shaping]]) -> Iterator[Draft]:
    found = [(part, shaping) for part in bench.piece.parts for shaping in ask(bench, part)]
    by_kind = grouped(found, lambda pair: (pair[1].verb, pair[1].text))
    for (verb, text), pairs in by_kind.items():
        yield _draft(bench, verb, text, pairs)


def _draft(bench: Bench, verb: str, text: str, pairs: Sequence[tuple[Part, _Shaping]]) -> Draft:
    first = pairs[0][1]
    parts = bench.names.in_order(part.name for part, _ in pairs)
    details = grouped(pairs, lambda pair: pair[1].detail)
    machine = bench.machine(*first.machines)
    return Draft(
        Stage.SHAPE,
        f"{verb} {bench.names.counted(parts)}",
        text,
        parts,
        machine=machine.name if machine else "",
        settings=tuple(
            f"{bench.names.counted(part.name for part, _ in same)}: {detail}"
            for detail, same in details.items()
        ),
        active=minutes("set up") + sum(minutes(shaping.operation, shaping.amount) for _, shaping in pairs),
        check=first.check,
        cautions=bench.cautions(machine),
    )


def _lean(_: Bench, part: Part) -> tuple[_Shaping, ...]:
    lean = part.shape.lean
    if lean is None:
        return ()
    high = part.size(Axis.HIGH)
    slope = degrees(atan(hypot(*lean.shift) / high))
    sight = degrees(atan(abs(lean.shift[1]) / abs(lean.shift[0]))) if lean.shift[0] else 90.0
    return (
        _Shaping(
            "Cut the level ends of",
            f"blade tilted {format_angle(slope)}, the stick turned {format_angle(sight)} from its wide face",
            "Both ends are level when the part leans. Cut a trial end on an offcut first; keep the two ends "
            "parallel and mark which way each part leans.",
            "Stood in place the part leans as drawn and its foot lies flat.",
            "final crosscut",
            2,
            (M.MITRE_SAW, M.TABLE_SAW, M.HAND_SAW),
        ),
    )


def _taper(bench: Bench, part: Part) -> tuple[_Shaping, ...]:
    taper = part.shape.taper
    if taper is None:
        return ()
    faces = ", ".join(sorted(face.word for face in taper.faces)) or "all four faces"
    run = abs(part.box.face(taper.end) - taper.start)
    how = f"to {bench.both(taper.to)} at the {taper.end.word} over {bench.show(run)}, {faces}"
    if part.shape.section is Section.ROUND:
        return ()
    return (
        _Shaping(
            "Taper",
            how,
            "Mark where the taper starts and its size at the end, saw to the line on a carrier, plane the "
            "sawn faces. The joints are cut already, so the square faces are no longer needed.",
            "All are equal stood side by side; no taper runs into a joint.",
            "taper",
            1,
            (M.BAND_SAW, M.TABLE_SAW, M.HAND_PLANE),
        ),
    )


def _section(bench: Bench, part: Part) -> tuple[_Shaping, ...]:
    section = part.shape.section
    coopered = part.built is not None and part.built.kind is BuildKind.COOPERED
    if section in (Section.SQUARE, Section.LEVEL) or coopered:
        return ()
    across = bench.both(part.width)
    taper = part.shape.taper
    end = f", {bench.both(taper.to)} at the {taper.end.word}" if taper else ""
    turned = section is Section.ROUND
    return (
        _Shaping(
            "Round" if turned else f"Make {section.value}",
            f"{across} across{end}",
            "Turn them, or plane the corners to eight sides, to sixteen, then round; leave what goes into "
            "a joint for last and fit it to its hole."
            if turned
            else "Mark the lines from the middle of each face and plane to them.",
            "A ring or template passes over the whole length.",
            "turn" if turned else "taper",
            1,
            (M.LATHE, M.BAND_SAW, M.HAND_PLANE) if turned else (M.TABLE_SAW, M.HAND_PLANE),
        ),
    )


def _outline(bench: Bench, part: Part) -> tuple[_Shaping, ...]:
    outline = part.shape.outline
    return () if outline is None or outline.kind is OutlineKind.RING else _sawn_outline(bench, part, outline)


def _ring(bench: Bench, part: Part) -> tuple[_Shaping, ...]:
    outline = part.shape.outline
    is_ring = outline is not None and outline.kind is OutlineKind.RING
    return _sawn_outline(bench, part, outline) if is_ring and outline else ()


def _sawn_outline(bench: Bench, part: Part, outline: Outline) -> tuple[_Shaping, ...]:
    sizes = {
        OutlineKind.ROUND: f"round, {bench.both(part.length)} across",
        OutlineKind.OVAL: f"oval, {bench.number(part.length)} x {bench.show(part.width)}",
        OutlineKind.CORNERS: f"corners rounded to {bench.show(outline.radius)}",
        OutlineKind.RING: f"ring, {bench.both(part.length)} across, wall {bench.show(outline.radius)}",
        OutlineKind.PATH: "to the full-size template",
    }
    return (
        _Shaping(
            "Saw the outline of",
            sizes[outline.kind],
            "Draw the outline from the template or with a trammel, saw outside the line, then come to it "
            "with a template bit, a spokeshave or the sander.",
            "The edge is square to the face and runs fair under the hand.",
            "outline",
            1,
            (M.BAND_SAW, M.JIGSAW, M.ROUTER),
        ),
    )


def _edges(bench: Bench, part: Part) -> tuple[_Shaping, ...]:
    works = [work for work in part.work if isinstance(work, EdgeWork)]
    return tuple(_edge(bench, part, work) for work in works)


def _edge(bench: Bench, part: Part, work: EdgeWork) -> _Shaping:
    same = abs(work.size - work.drop) < 0.05
    size = bench.both(work.size) if same else f"{bench.number(work.size)} x {bench.show(work.drop)}"
    metres = sum(part.size(_run_of(edge)) for edge in work.edges) / 1000
    count = len(work.edges)
    where = "every edge" if count > 4 else f"round the {work.face.word}" if count == 4 else _edge_words(work)
    return _Shaping(
        f"{_EDGE_VERBS[work.kind]} the edges of",
        f"{size}, {where}",
        "Across the end grain first, then along; stop where another part meets the edge.",
        "The line is even and the corners meet.",
        "edge",
        metres,
        (M.ROUTER, M.ROUTER_TABLE, M.HAND_PLANE),
    )


_EDGE_VERBS = {
    EdgeKind.CHAMFER: "Chamfer",
    EdgeKind.ROUND_OVER: "Round over",
    EdgeKind.BEVEL: "Bevel",
    EdgeKind.RABBET: "Rabbet",
}


def _run_of(edge: Edge) -> Axis:
    """The axis an edge runs along."""
    return next(axis for axis in Axis if axis not in (edge.first.axis, edge.second.axis))


def _edge_words(work: EdgeWork) -> str:
    """`top edge at the front`, `3 edges of the top`."""
    if len(work.edges) > 1:
        return f"{len(work.edges)} edges of the {work.face.word}"
    edge = work.edges[0]
    other = edge.second if edge.first is work.face else edge.first
    return f"{work.face.word} edge at the {other.word}"


def _work(bench: Bench, part: Part) -> tuple[_Shaping, ...]:
    return tuple(shaping for work in part.work if (shaping := _one_work(bench, work)))


def _one_work(bench: Bench, work: Work) -> _Shaping | None:
    show = bench.show
    match work:
        case HoleWork():
            deep = "through" if work.deep is None else f"{show(work.deep)} deep"
            return _drilled(f"{bench.both(work.diameter)}, {deep}, in the {work.face.word}", 1)
        case PinRowsWork():
            count = len(work.rows) * len(work.places)
            rows = f"{len(work.rows)} rows in the {work.face.word}, {bench.both(work.diameter)}, "
            return _drilled(f"{rows}{show(work.deep)} deep, {count} holes", count)
        case SlotWork():
            return _routed("Rout slots in", f"{bench.number(work.long)} x {show(work.wide)}")
        case GrooveWork():
            width = bench.number(work.high - work.low)
            return _routed("Groove", f"{width} x {show(work.deep)} deep in the {work.face.word}")
        case NotchWork():
            sizes = " x ".join(bench.number(size) for size in work.box.sizes)
            return _routed("Notch", f"{sizes}, wide by deep by high")
        case ArchWork():
            return _sawn("Saw the arch of", f"{show(work.rise)} high over {show(work.stop - work.start)}")
        case DishWork():
            return _dished(f"{show(work.deep)} deep, leaving a rim of {show(work.rim)}")
        case _:
            return None


def _drilled(detail: str, count: int) -> _Shaping:
    text = "Mark from the same end on every part; back up the far side where the hole goes through."
    check = "Every hole lines up with its neighbours on the other parts."
    return _Shaping("Drill", detail, text, check, "hole", count, (M.DRILL_PRESS, M.DRILL))


def _routed(verb: str, detail: str) -> _Shaping:
    text = "Mark it with a knife, take several shallow passes, square the corners with a chisel if they show."
    check = "Width and depth as listed at both ends."
    return _Shaping(verb, detail, text, check, "groove", 1, (M.ROUTER, M.ROUTER_TABLE, M.HAND_SAW))


def _sawn(verb: str, detail: str) -> _Shaping:
    text = "Bend a thin batten to the rise, draw along it, saw outside the line and smooth to it."
    check = "The curve runs fair, equal at both ends."
    return _Shaping(verb, detail, text, check, "outline", 1, (M.BAND_SAW, M.JIGSAW))


def _dished(detail: str) -> _Shaping:
    text = "Drill depth holes, cut across the grain towards the middle, then smooth along it."
    check = "A straightedge across the rim shows the depth in the middle."
    return _Shaping("Hollow", detail, text, check, "dish", 1, ())
