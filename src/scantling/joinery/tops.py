"""Fasteners that give a little: figure eights, wooden buttons, metal clips."""

from __future__ import annotations

from math import cos, radians, sin

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import pilot
from scantling.joinery.features import Cut, Feature, Shaped
from scantling.joinery.made import Made, layout, notice
from scantling.joinery.meeting import Meeting, is_solid
from scantling.joinery.sides import inner_side
from scantling.joinery.spots import Spot, movement_axis, moving_part, spots_of, unknown_movement, use_of
from scantling.piece.model import Face, Notice

_SQUARE_TAKES = 1.0  # mm in all that an arm square to the rail lets a top move across it; derived


def figure_eights(m: Meeting, bench: Bench) -> Made:
    """Discs let into the second part's edge near its inner face, the other end under the top.

    An arm square to the rail swings along it; where the top moves across the rail it is set at a slant.
    """
    inner, thick = inner_side(m), rules.number("figure eight thick")
    spots = spots_of(m, bench)
    arm, disc = rules.number("figure eight arm"), rules.number("figure eight diameter")
    swing = radians(rules.number("figure eight swing"))
    moves = max((spot.travel or 0.0 for spot in spots), default=0.0)
    across = movement_axis(m) != m.run and moves > _SQUARE_TAKES
    slant = radians(rules.number("figure eight slant")) if across else 0.0
    travel = arm * (cos(slant - swing) - cos(slant) if slant else sin(swing))
    centre = m.other.face(inner) - inner.sign * min(5.0, m.thin / 2)
    seconds: list[Feature] = []
    firsts: list[Feature] = []
    for spot in spots:
        seconds.append(m.second_hole(spot.run, centre, disc, thick, "counterbore"))
        seconds.append(m.second_hole(spot.run, centre, pilot(bench, m.second, 8), thick + 13.0, "pilot"))
        along, inward = arm * sin(slant), inner.sign * arm * cos(slant)
        firsts.append(
            m.first_hole(spot.run + along, centre + inward, pilot(bench, m.first, 8), 12.0, "pilot")
        )
    uses = use_of(m, "figure eight", bench.number(disc), spots, travel=travel, fixed=False)
    words = (
        f"{len(spots)} figure eights, recess {bench.said(disc)} across, {bench.said(thick)} deep, its centre"
        f" {bench.said(min(5.0, m.thin / 2))} from the {inner.word}; each swings {bench.said(travel)} a way"
    ) + ("; set slanting, half way to the rail, so that they swing across it" if slant else "")
    numbers = (("count", float(len(spots))), ("travel", travel))
    made = layout(m, words, numbers, source=rules.source("figure eight widest top"))
    notices = (*_too_far(m, bench, spots, travel), *_too_wide(m, bench))
    return Made(tuple(firsts), tuple(seconds), made, uses, notices)


def _too_wide(m: Meeting, bench: Bench) -> tuple[Notice, ...]:
    top, widest = moving_part(m), rules.number("figure eight widest top")
    wide = top.box.size(movement_axis(m))
    if wide <= widest or not is_solid(top.material):
        return ()
    message = f"figure eights are for tops up to {bench.said(widest)}; this is {bench.said(wide)} wide"
    return (notice(m, "top too wide", message, number=wide, remedy="use buttons or slotted screws"),)


def buttons(m: Meeting, bench: Bench) -> Made:
    """Wooden buttons: a mortise in the inner face of the second part, a screw up into the top."""
    sizes = (rules.number("button groove deep"), rules.number("button groove thick"), 40.0)
    return _hooked(m, bench, "button", sizes, 10.0, rules.number("button travel"))


def clips(m: Meeting, bench: Bench) -> Made:
    """Metal clips in a saw kerf of the second part, set so that they pull."""
    sizes = (rules.number("clip slot deep"), rules.number("clip slot thick"), 25.0)
    return _hooked(m, bench, "clip", sizes, rules.number("clip offset"), rules.number("clip travel"))


def _hooked(
    m: Meeting, bench: Bench, kind: str, sizes: tuple[float, float, float], down: float, travel: float
) -> Made:
    """`sizes`: of the slot, deep, thick, long; `down`: its upper side below the meeting plane. [mm]"""
    inner, spots = inner_side(m), spots_of(m, bench)
    seconds = tuple(_side_slot(m, s, inner, sizes, down) for s in spots)
    reach = m.other.face(inner) + inner.sign * 15.0
    bore = pilot(bench, m.first, 8)
    firsts = tuple(m.first_hole(s.run, reach, bore, min(12.0, m.first_room - 4.0), "pilot") for s in spots)
    along_run = movement_axis(m) == m.run
    gives = "runs along it" if along_run else f"gives {bench.said(travel)} either way"
    words = (
        f"{len(spots)} {kind}s in slots {bench.said(sizes[1])} wide, {bench.said(sizes[0])} deep,"
        f" {bench.said(down)} below the top; each {gives}"
    )
    numbers = (("count", float(len(spots))), ("travel", travel), ("down", down))
    made = layout(m, words, numbers, source=rules.source(f"{kind} travel"))
    far = () if along_run else _too_far(m, bench, spots, travel)
    return Made(firsts, seconds, made, use_of(m, kind, "", spots, travel=travel, fixed=False), far)


def _side_slot(
    m: Meeting, spot: Spot, inner: Face, sizes: tuple[float, float, float], down: float
) -> Cut | Shaped:
    deep, thick, long = sizes
    face = m.other.face(inner)
    across = sorted((face, face - inner.sign * min(deep, m.thin - 4.0)))
    block = m.block((spot.run - long / 2, spot.run + long / 2), (across[0], across[1]), (down, down + thick))
    return m.second_cut(block, "slot", face=inner)


def _too_far(m: Meeting, bench: Bench, spots: tuple[Spot, ...], travel: float) -> tuple[Notice, ...]:
    found = list(unknown_movement(m, bench, spots))
    most = max((s.travel or 0.0 for s in spots), default=0.0)
    if most > 2 * travel:
        gives = bench.said(2 * travel)
        message = f"the top moves {bench.said(most)} here, and the {m.joint.method} give {gives} in all"
        found.append(notice(m, "top moves too far", message, number=most, remedy="use slotted screws"))
    return tuple(found)
