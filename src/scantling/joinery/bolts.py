"""Knock-down bolts: bed bolts, cross-dowel bolts and hanger bolts."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.driving import by_part, centre_side, drive_of, head_hole, thread_hole
from scantling.joinery.features import Feature, HardwareUse, Hole
from scantling.joinery.made import Made, both_parts, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import evenly
from scantling.piece.model import BuildKind, Face, Notice

_IN_WALL = 0.36  # of a coopered wall from its outside: clear of laps over the middle
_BEHIND = 10.0  # mm of hole beyond a bolt's end


@dataclass(frozen=True, slots=True)
class Bolt:
    """`sunk`: counterbore for the head; `nut`: diameter of the cross hole. [mm]"""

    kind: str
    diameter: float
    length: float
    sunk: float
    nut: float


BOLTED = frozenset({"bed bolts", "cross-dowel bolts"})


def bolt_diameter(m: Meeting) -> float:
    """Of the hole a bolt of this joint runs in. [mm]"""
    size = m.settings.size
    usual = "bed bolt diameter" if m.joint.method == "bed bolts" else "cross-dowel bolt diameter"
    return (size[0] if size else rules.number(usual)) + rules.number("bolt hole spare")


def bed_bolts(m: Meeting, bench: Bench) -> Made:
    """Through the second part into the end of the first; the nut in a hole from its inner face."""
    size, diameter = m.settings.size, bolt_diameter(m) - rules.number("bolt hole spare")
    length = size[1] if len(size) > 1 else rules.number("bed bolt length")
    sunk, nut = rules.number("bolt counterbore deep"), rules.number("bolt counterbore")
    bolt = Bolt("bed bolt", diameter, length, sunk, nut)
    return _bolted(m, bench, bolt, rules.source("bed bolt diameter"))


def cross_dowel_bolts(m: Meeting, bench: Bench) -> Made:
    """Through the second part into a barrel nut across the first."""
    size, diameter = m.settings.size, bolt_diameter(m) - rules.number("bolt hole spare")
    usual = bench.rounded(m.second_room + rules.number("cross-dowel from end") + diameter)
    length = size[1] if len(size) > 1 else usual
    bolt = Bolt("cross-dowel bolt", diameter, length, 0.0, rules.number("cross-dowel diameter"))
    return _bolted(m, bench, bolt, rules.source("cross-dowel diameter"))


def _bolted(m: Meeting, bench: Bench, bolt: Bolt, source: str) -> Made:
    drive = drive_of(m, from_first=False)
    runs = _places(m, bolt)
    bore = bolt.diameter + rules.number("bolt hole spare")
    reach = bolt.length - (m.second_room - bolt.sunk)
    passed: list[Feature] = [head_hole(drive, r, m.middle, bore, m.second_room, "bolt") for r in runs]
    if bolt.sunk:
        head = rules.number("bolt counterbore")
        passed += [head_hole(drive, r, m.middle, head, bolt.sunk, "counterbore") for r in runs]
    side = centre_side(m, bench, m.across)
    threaded: list[Feature] = []
    for run in runs:
        threaded.append(thread_hole(drive, run, m.middle, bore, max(1.0, reach + _BEHIND), "bolt"))
        threaded.append(_nut(m, bolt, run, side, reach))
    first, second = by_part(drive, passed, threaded)
    words = (
        f"{counted(len(runs), bolt.kind)} {bench.said(bolt.diameter)} x {bench.said(bolt.length)}; nut in a"
        f" {bench.said(bolt.nut)} hole in the {side.word} of {m.first.name},"
        f" {bench.said(_nut_depth(bolt, reach))} from its end"
    )
    numbers = (
        ("count", float(len(runs))),
        ("diameter", bolt.diameter),
        ("length", bolt.length),
        ("into", reach),
    )
    return Made(
        first,
        second,
        layout(m, words, numbers, source=source),
        (_use(m, bench, bolt, runs),),
        _reach(m, bench, bolt, reach),
    )


def _nut_depth(bolt: Bolt, reach: float) -> float:
    return max(bolt.nut, reach - bolt.nut / 2)


def _nut(m: Meeting, bolt: Bolt, run: float, side: Face, reach: float) -> Hole:
    """The cross hole, from the inner face to past the middle."""
    at = m.at(run, m.first.box.face(side), -_nut_depth(bolt, reach))
    deep = min(m.thin / 2 + bolt.nut / 2, m.thin - 3.0)
    return Hole(at, side.opposite.normal, bolt.nut, deep, "nut", m.joint.id)


def _places(m: Meeting, bolt: Bolt) -> tuple[float, ...]:
    count = m.settings.count or (2 if m.length > 6 * bolt.nut else 1)
    return tuple(run + m.shift for run in evenly(m.low, m.high, count, m.length / 4))


def _use(m: Meeting, bench: Bench, bolt: Bolt, runs: tuple[float, ...]) -> HardwareUse:
    size = f"{bench.number(bolt.diameter)} x {bench.number(bolt.length)}"
    sizes = (("diameter", bolt.diameter), ("length", bolt.length))
    at = tuple(m.in_piece(m.at(run, m.middle)) for run in runs)
    return HardwareUse(bolt.kind, size, len(runs), m.joint.id, both_parts(m), sizes, at)


def _reach(m: Meeting, bench: Bench, bolt: Bolt, reach: float) -> tuple[Notice, ...]:
    if reach >= 2 * bolt.nut:
        return ()
    least = m.second_room - bolt.sunk + 2 * bolt.nut
    message = (
        f"a bolt {bench.said(bolt.length)} long reaches {bench.said(max(0.0, reach))} into {m.first.name}"
    )
    remedy = f"use one of at least {bench.plain(least)}"
    return (notice(m, "bolt too short", message, number=reach, remedy=remedy, must=reach < bolt.nut),)


def hanger_bolts(m: Meeting, bench: Bench) -> Made:
    """Wood thread in the second part, nut and washer in or on the first."""
    diameter = m.settings.size[0] if m.settings.size else rules.number("hanger bolt diameter")
    thread = m.settings.deep or rules.number("hanger bolt wood thread")
    drive = drive_of(m, from_first=True)
    sunk = max(0.0, m.first_room - rules.number("screw left under head"))
    spots = _wall_spots(m)
    bore = rules.number("hanger bolt pilot over diameter") * diameter
    passed: list[Feature] = []
    for spot in spots:
        passed.append(
            head_hole(drive, *spot, diameter + rules.number("bolt hole spare"), m.first_room, "bolt")
        )
        passed.append(head_hole(drive, *spot, rules.number("bolt counterbore"), sunk, "counterbore"))
    threaded: list[Feature] = [thread_hole(drive, *spot, bore, thread, "pilot") for spot in spots]
    length = bench.rounded(thread + m.first_room - sunk + 15.0)
    sizes = (("diameter", diameter), ("length", length))
    name = f"{bench.number(diameter)} x {bench.number(length)}"
    at = tuple(m.in_piece(m.at(*spot)) for spot in spots)
    use = HardwareUse("hanger bolt", name, len(spots), m.joint.id, both_parts(m), sizes, at)
    words = (
        f"{counted(len(spots), 'hanger bolt')} {bench.said(diameter)}, {bench.said(thread)} of thread in"
        f" {m.second.name if m.second else ''}; nut sunk {bench.said(sunk)}"
    )
    numbers = (("count", float(len(spots))), ("diameter", diameter), ("thread", thread), ("sunk", sunk))
    return Made(
        tuple(passed),
        tuple(threaded),
        layout(m, words, numbers, source=rules.source("hanger bolt diameter")),
        (use,),
    )


def _wall_spots(m: Meeting) -> tuple[tuple[float, float], ...]:
    """Two places near the ends of the run; in the staves' wall where the second part is coopered."""
    built = m.second.built if m.second else None
    if built is not None and built.kind is BuildKind.COOPERED and built.wall is not None:
        low, high = m.other.low[m.run], m.other.high[m.run]
        half = _IN_WALL * built.wall
        return tuple((place, m.middle) for place in (low + half, high - half) if m.low <= place <= m.high)
    count = m.settings.count or (2 if m.length > 60 else 1)
    return tuple((run, m.middle) for run in evenly(m.low, m.high, count, m.length / 4))
