"""Layers and staves glued into parts, then trued."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scantling.building.bench import Bench, grouped
from scantling.building.build_plan import Stage
from scantling.building.clamping import (
    EDGE_SPACING,
    LAYER_SPACING,
    Clamping,
    clamp_words,
    clamping,
    clamps_along,
)
from scantling.building.draft import Draft
from scantling.building.naming import numbered, plural
from scantling.building.tables import minutes
from scantling.cutting.cut_plan import Blank, GlueUp, Role
from scantling.piece.model import PartName
from scantling.quantity import format_angle, listed
from scantling.shop.model import MachineKind

SPARE = 0.3  # mm of thickness that allows a last light planing
CURE = 24 * 60.0  # minutes before a glued blank is planed or loaded; maker's gluing guide


def gluing(bench: Bench) -> Iterator[Draft]:
    """Glue-ups of equal parts together, one step each; then the steps that true them."""
    known = [g for g in bench.cuts.glue_ups if g.part in bench.piece.part_by_name]
    glue_ups = [g for g in known if is_seam_glued(bench, g)]
    yield from _loose_boards(bench, [g for g in known if not is_seam_glued(bench, g)])
    batches = grouped(glue_ups, lambda g: _alike(bench, g)).values()
    for batch in batches:
        yield _glue(bench, batch)
    staves = [g for g in glue_ups if g.role is Role.STAVE]
    yield from _true(bench, [g for g in glue_ups if g.role is Role.LAYER], layers=True)
    yield from _true(bench, [g for g in staves if _has_spare(bench, g)], layers=False)
    yield from _flush(bench, [g for g in staves if not _has_spare(bench, g)])
    yield from _rings(bench, [g for g in glue_ups if g.role is Role.SEGMENT])


def _alike(bench: Bench, glue_up: GlueUp) -> tuple[str, ...]:
    """Layered parts of one section are glued in one step; panels and rings by what they are."""
    if glue_up.role is not Role.LAYER:
        return (glue_up.role.value, bench.names.noun(glue_up.part))
    first = _blanks(bench, glue_up)[0]
    return (str(len(glue_up.blanks)), bench.show(first.thickness), bench.show(first.width))


def is_seam_glued(bench: Bench, glue_up: GlueUp) -> bool:
    """Whether the staves are glued; a back of tongued boards stays loose."""
    built = bench.part(glue_up.part).built
    return built is None or built.glue != "none"


def _loose_boards(bench: Bench, glue_ups: Sequence[GlueUp]) -> Iterator[Draft]:
    """Boards that lie side by side unglued, their edges worked to meet."""
    if not glue_ups:
        return
    parts = bench.names.in_order(g.part for g in glue_ups)
    machine = bench.machine(MachineKind.ROUTER_TABLE, MachineKind.ROUTER, MachineKind.TABLE_SAW)
    count = sum(len(g.blanks) for g in glue_ups)
    edges = {built.edges for part in parts if (built := bench.part(part).built)}
    yield Draft(
        Stage.JOINTS,
        f"Work the edges of {numbered(count, 'board')} for {bench.names.counted(parts)}",
        f"Edges: {listed(sorted(edges))}. The boards stay loose so that each can swell and shrink: about "
        f"{bench.show(1.6)} between them in the dry season, less in the damp, and no glue anywhere.",
        parts,
        machine=machine.name if machine else "",
        settings=_stave_lines(bench, glue_ups),
        active=minutes("set up") + minutes("groove", 2 * count),
        check="Two boards slide together by hand and part again.",
        cautions=bench.cautions(machine),
    )


def _blanks(bench: Bench, glue_up: GlueUp) -> tuple[Blank, ...]:
    return tuple(bench.blanks[name] for name in glue_up.blanks)


def _glue(bench: Bench, batch: Sequence[GlueUp]) -> Draft:
    first, parts = batch[0], bench.names.in_order(g.part for g in batch)
    need = clamping_of(bench, first)
    rounds = need.rounds(len(batch))
    glue = bench.glue
    operation = "laminate" if first.role is Role.LAYER else "glue panel"
    return Draft(
        Stage.GLUE_UP,
        f"Glue up {bench.names.counted(parts)} from {_count_words(batch)}",
        _glue_text(bench, first, rounds, need),
        parts,
        settings=(*_clamp_lines(bench, first, need), *_stave_lines(bench, batch)),
        active=minutes(operation, len(batch)),
        wait=(rounds - 1) * glue.clamp_minutes + CURE,
        wait_for=f"{glue.name} to cure; clamps may come off after {glue.clamp_minutes:.0f} minutes",
        check="An even row of small beads squeezes out along every line; the faces are flush; a straightedge "
        "across shows the panel flat.",
        joined=parts,
    )


def _glue_text(bench: Bench, glue_up: GlueUp, rounds: int, need: Clamping) -> str:
    one = "Dry-clamp first: no light through any joint. "
    turns = f" With these clamps {rounds} rounds, {need.at_once} at a time." if rounds > 1 else ""
    if glue_up.role is Role.LAYER:
        return (
            f"{one}Same face to same face so that cups oppose, grain running one way. Glue both faces, "
            f"cauls on both sides, clamps from the middle outward, within {bench.glue.open_minutes:.0f} "
            f"minutes.{turns}"
        )
    if glue_up.role is Role.STAVE:
        return (
            f"{one}Lay the staves by figure and grain and draw one triangle across them. Glue the edges, "
            f"clamps above and below by turns from the middle outward, within "
            f"{bench.glue.open_minutes:.0f} minutes.{turns}"
        )
    return f"{one}{_ring_text(bench, glue_up)}{turns}"


def _ring_text(bench: Bench, glue_up: GlueUp) -> str:
    """Coopered shells and brick-laid rings: the angle at each joint, and what holds it."""
    built = bench.part(glue_up.part).built
    courses = (built.courses or 1) if built else 1
    segments = max(3, len(glue_up.blanks) // courses)
    angle = format_angle(180 / segments)
    if courses > 1:
        return (
            f"Cut {segments} segments a course, both ends at {angle}, to a full-size pattern. Glue the first "
            "course, plane it flat when it has set, then course on course, joints staggered like bricks."
        )
    return (
        f"Bevel both edges of each segment to {angle} and try the ring dry with tape. Glue it in halves, "
        "true the halves, then join them; band clamps round the outside."
    )


def _count_words(batch: Sequence[GlueUp]) -> str:
    """`2 layers each`, `2 or 3 staves each`, `24 segments`."""
    counts = sorted({len(glue_up.blanks) for glue_up in batch})
    words = f"{' or '.join(map(str, counts))} {plural(batch[0].role.value)}"
    return f"{words} each" if len(batch) > 1 else words


def _clamp_lines(bench: Bench, glue_up: GlueUp, need: Clamping) -> tuple[str, ...]:
    return () if glue_up.role is Role.SEGMENT else (clamp_words(bench, need),)


def _stave_lines(bench: Bench, batch: Sequence[GlueUp]) -> tuple[str, ...]:
    """Widths of the staves of each panel, side by side."""
    return tuple(
        f"{glue_up.part}: {bench.series([blank.width for blank in _blanks(bench, glue_up)])}"
        for glue_up in batch
        if glue_up.role is Role.STAVE
    )


def clamping_of(bench: Bench, glue_up: GlueUp) -> Clamping:
    """Clamps for one glue-up by the spacing rules. See `clamping`."""
    blanks = _blanks(bench, glue_up)
    long, wide = blanks[0].length, max(blank.width for blank in blanks)
    if glue_up.role is Role.LAYER:
        rows = max(1, round(wide / LAYER_SPACING))
        across = sum(blank.thickness for blank in blanks)
        return clamping(bench, rows * clamps_along(long, LAYER_SPACING), across)
    return clamping(bench, clamps_along(long, EDGE_SPACING), sum(blank.width for blank in blanks))


def _true(bench: Bench, glue_ups: Sequence[GlueUp], *, layers: bool) -> Iterator[Draft]:
    """Layered parts are squared, panels are scraped and flattened."""
    if not glue_ups:
        return
    parts = bench.names.in_order(g.part for g in glue_ups)
    planer = bench.machine(MachineKind.PLANER)
    fits = [p for p in parts if planer and bench.part(p).width <= (planer.most_width or 1e9)]
    machine = planer if fits and len(fits) == len(parts) else bench.machine(MachineKind.HAND_PLANE)
    area = sum(bench.part(p).length * bench.part(p).width for p in parts) / 1e6
    wide = [p for p in parts if p not in fits]
    yield Draft(
        Stage.THICKNESS,
        f"{'Square' if layers else 'Flatten'} {bench.names.counted(parts)}",
        _true_text(bench, parts, wide, layers=layers),
        parts,
        machine=machine.name if machine else "",
        settings=_true_settings(bench, parts, layers=layers),
        active=minutes("set up") + (minutes("edge and rip", 2 * len(parts)) if layers else 0)
        + minutes("flatten glued panel", area),
        check="A square shows no light at any corner." if layers else "No rock on a flat table, no ridge "
        "under the fingers at the glue lines.",
        cautions=bench.cautions(machine, *(() if machine and machine is planer else ("sander",))),
    )  # fmt: skip


def _has_spare(bench: Bench, glue_up: GlueUp) -> bool:
    """Whether the staves were left thick enough to plane the panel once more."""
    return min(b.thickness for b in _blanks(bench, glue_up)) > bench.part(glue_up.part).thickness + SPARE


def _flush(bench: Bench, glue_ups: Sequence[GlueUp]) -> Iterator[Draft]:
    """Panels glued from staves that are at thickness: only the glue lines are touched."""
    if not glue_ups:
        return
    parts = bench.names.in_order(g.part for g in glue_ups)
    machine = bench.machine(MachineKind.HAND_PLANE, MachineKind.SANDER)
    area = sum(bench.part(p).length * bench.part(p).width for p in parts) / 1e6
    yield Draft(
        Stage.THICKNESS,
        f"Scrape {bench.names.counted(parts)} flush",
        "The staves are at thickness already: scrape off every bead of hard glue, then plane or scrape only "
        "what stands proud at the glue lines, both faces.",
        parts,
        machine=machine.name if machine else "",
        settings=_true_settings(bench, parts, layers=False),
        active=minutes("flatten glued panel", 2 * area),
        check="No ridge under the fingers at the glue lines; no rock on a flat table.",
        cautions=bench.cautions(machine, "sander"),
    )


def _rings(bench: Bench, glue_ups: Sequence[GlueUp]) -> Iterator[Draft]:
    if not glue_ups:
        return
    parts = bench.names.in_order(g.part for g in glue_ups)
    machine = bench.machine(MachineKind.HAND_PLANE, MachineKind.SANDER)
    yield Draft(
        Stage.THICKNESS,
        f"True {bench.names.counted(parts)}",
        "Scrape off every bead of hard glue. Plane the joints flush and both ends flat and parallel.",
        parts,
        machine=machine.name if machine else "",
        active=minutes("edge and rip", 4 * len(parts)),
        check="Both ends lie flat on a table without rocking.",
    )


def _true_text(bench: Bench, parts: Sequence[PartName], wide: Sequence[PartName], *, layers: bool) -> str:
    scrape = "Scrape off every bead of hard glue first; it ruins knives. "
    if layers:
        return (
            f"{scrape}Plane one face and one edge square to each other, then the other two to size, "
            "the same setting for all."
        )
    if wide:
        verb = "is" if len(wide) == 1 else "are"
        return (
            f"{scrape}Too wide for the planer {verb} {listed(bench.names.counts(wide))}: hand plane across, "
            "then along the grain, and sand. Take the rest through the planer."
            if len(wide) < len(parts)
            else f"{scrape}Too wide for the planer: plane across, then along the grain, and sand."
        )
    return f"{scrape}Light passes through the planer, both faces by turns."


def _true_settings(bench: Bench, parts: Sequence[PartName], *, layers: bool) -> tuple[str, ...]:
    sizes = grouped(parts, lambda p: _section(bench, p, layers=layers))
    return tuple(f"{size}: {bench.names.counted(found)}" for size, found in sizes.items())


def _section(bench: Bench, part: PartName, *, layers: bool) -> str:
    thick, wide = bench.part(part).thickness, bench.part(part).width
    return f"{bench.number(thick)} x {bench.show(wide)}" if layers else bench.show(thick)
