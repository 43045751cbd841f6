"""Screws through one part into another, and into the wall: clearance, countersink, pilot."""

from __future__ import annotations

from math import ceil, floor

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.choosing import Screw, driven, least_thread
from scantling.joinery.driving import Drive, by_part, head_hole, pilot, thread_hole
from scantling.joinery.features import Feature, HardwareUse
from scantling.joinery.made import Made, both_parts, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.joinery.spread import count_at_most, evenly, every
from scantling.piece.model import FLOOR, Axis, Notice

_STUD_EDGE = 12.0  # mm from the end of a part to a stud it is screwed to
_BESIDE = 2.5  # diameters from a screw moved aside to the edge, bored first; common practice, no source
_ROWS_FROM = 90.0  # mm: a meeting this thick takes two rows


def screws(m: Meeting, bench: Bench) -> Made:
    """Clearance hole and countersink in the part passed, pilot in the other."""
    if m.second is None:
        return _to_wall(m, bench)
    drive, screw = driven(m, bench)
    runs, slack = screw_places(m, screw.major)
    spots = [(run, row) for run in runs for row in _rows(m, screw.major)]
    passed = [hole for spot in spots for hole in head_holes(drive, screw, *spot)]
    deep = max(0.0, min(screw.length - drive.under, drive.into))
    bore = pilot(bench, drive.threaded, screw.gauge) if screw.gauge else 0.7 * screw.major
    threaded: list[Feature] = [thread_hole(drive, *spot, bore, deep, "pilot") for spot in spots]
    first, second = by_part(drive, passed, threaded)
    words = _words(m, bench, drive, screw, runs, len(spots))
    numbers = (
        ("count", float(len(spots))),
        ("gauge", screw.gauge),
        ("diameter", screw.major),
        ("length", screw.length),
        ("thread", deep),
    )
    glued = m.square_area if m.settings.glue else 0.0
    made = layout(m, words, numbers, glued=glued, source=rules.source("screw length over thickness"))
    use = _use(m, bench, screw, spots)
    return Made(first, second, made, (use,), _notices(m, bench, drive, screw, deep), slack)


def _use(m: Meeting, bench: Bench, screw: Screw, spots: list[tuple[float, float]]) -> HardwareUse:
    return HardwareUse(
        "wood screw",
        screw.name(bench),
        len(spots),
        m.joint.id,
        both_parts(m),
        (("diameter", screw.major), ("length", screw.length)),
        tuple(m.in_piece(m.at(*spot)) for spot in spots),
    )


def head_holes(drive: Drive, screw: Screw, run: float, across: float) -> list[Feature]:
    """Clearance hole with a countersink, or with a counterbore where the part is thick."""
    clearance = head_hole(drive, run, across, screw.clearance, drive.through, "clearance")
    head = rules.number("screw head over diameter") * screw.major
    if drive.sunk:
        bore = max(rules.number("screw counterbore"), head + 1.0)
        return [clearance, head_hole(drive, run, across, bore, drive.sunk, "counterbore")]
    return [clearance, head_hole(drive, run, across, head, head / 4, "countersink")]


def screw_places(m: Meeting, major: float) -> tuple[tuple[float, ...], float]:
    """Places along the run, and how far the row may be shifted."""
    along_grain = m.first.grain == m.run
    rule = "screw end over diameter" if along_grain else "screw edge over diameter"
    first = min(rules.number(rule) * major, m.length / 4)
    if m.settings.every is not None:
        runs = every(m.low, m.high, m.settings.every, first)
    else:
        usual = count_at_most(m.low, m.high, rules.number("screw spacing"), first)
        count = m.settings.count or (
            1 if m.length < 4 * rules.number("screw edge over diameter") * major / 2 else usual
        )
        runs = evenly(m.low, m.high, count, max(first, min(m.length / 6, 50.0)) + m.inset)
    slack = max(0.0, runs[0] - m.low - first / 2)
    shift = max(-slack, min(slack, m.shift))
    return tuple(run + shift for run in runs), slack


def _rows(m: Meeting, major: float) -> tuple[float, ...]:
    """One row, or two on a broad meeting; moved off the middle no nearer to the edge than `_BESIDE`."""
    spread = m.thin / 4 if m.thin >= _ROWS_FROM else 0.0
    spare = max(0.0, m.thin / 2 - spread - _BESIDE * major)
    middle = m.middle + max(-spare, min(spare, m.aside))
    return (middle - spread, middle + spread) if spread else (middle,)


def _words(m: Meeting, bench: Bench, drive: Drive, screw: Screw, runs: tuple[float, ...], count: int) -> str:
    passed, threaded = drive.passed, drive.threaded
    words = (
        f"{counted(count, 'screw')} {screw.name(bench)}, through {passed.name if passed else ''}"
        f" into {threaded.name if threaded else ''}, the first {bench.said(runs[0] - m.low)} from the end"
    )
    if drive.sunk:
        words += f"; heads sunk {bench.said(drive.sunk)} deep"
    return words + ("; they bite in end grain" if drive.into_end_grain else "")


def _notices(m: Meeting, bench: Bench, drive: Drive, screw: Screw, deep: float) -> tuple[Notice, ...]:
    found = []
    over = screw.length - drive.under - drive.into + 1.0
    if over > 0:
        most = drive.under + drive.into - rules.number("screw short of far face")
        message = (
            f"a screw {bench.said(screw.length)} long comes within 1 mm of the far face, or out; at most"
        )
        found.append(
            notice(m, "screw pokes through", f"{message} {bench.said(most)}", number=over,
                   remedy=f"use one at most {bench.plain(most)} long", must=True)
        )  # fmt: skip
    least = least_thread(drive, screw.major)
    if deep < least - 1.0:
        message = f"only {bench.said(deep)} of thread holds, {bench.said(least)} is wanted"
        found.append(
            notice(m, "short thread", message, number=deep, remedy="a longer screw, or glue as well")
        )
    if drive.into_end_grain:
        message = "the screws go into end grain, which holds 60 to 75 % of side grain"
        found.append(notice(m, "screws in end grain", message, remedy="glue will not help; consider dowels"))
    return tuple(found)


def _to_wall(m: Meeting, bench: Bench) -> Made:
    """Clearance holes at the studs the piece crosses, or a row: in the floor, or where none are known."""
    drive, screw = driven(m, bench, from_first=True)
    floor = m.joint.second == FLOOR
    on_studs = [] if floor else _stud_spots(m, bench)
    spots = on_studs or _usual_spots(m)
    notices = (_into_floor(m),) if floor else () if on_studs else (_no_stud(m, bench),)
    holes = tuple(hole for spot in spots for hole in head_holes(drive, screw, *spot))
    words = (
        f"{counted(len(spots), 'screw')} {screw.name(bench)} through {m.first.name} into the {m.joint.second}"
    )
    numbers = (("count", float(len(spots))), ("length", screw.length))
    made = layout(m, words, numbers, source=rules.source("wall screw spacing"))
    return Made(holes, (), made, (_use(m, bench, screw, spots),), notices)


def _no_stud(m: Meeting, bench: Bench) -> Notice:
    if bench.piece.room.studs is not None:
        message = "no stud stands behind it: use anchors made for the wall"
        return notice(m, "no stud behind", message, remedy="move it onto a stud")
    message = "where the studs are is not known: screw into studs, or use anchors made for the wall"
    return notice(m, "studs unknown", message, remedy="write room: {studs: 16, first stud: ...}")


def _into_floor(m: Meeting) -> Notice:
    message = "screw into joists or masonry, not into the floor's covering alone; mind pipes and cables"
    return notice(m, "screws into the floor", message, remedy="use `brackets` where a screw will not reach")


def _usual_spots(m: Meeting) -> list[tuple[float, float]]:
    first = min(50.0, m.length / 4)
    count = count_at_most(m.low, m.high, rules.number("wall screw spacing"), first)
    return [(run, m.middle) for run in evenly(m.low, m.high, count, first + m.inset)]


def _stud_spots(m: Meeting, bench: Bench) -> list[tuple[float, float]]:
    """One place on each stud behind a level part, two on the stud behind an upright; [] where unknown."""
    if not m.first.placement.is_identity or Axis.WIDE not in (m.run, m.across):
        return []
    studs = _studs(bench, m.area.low[Axis.WIDE] + _STUD_EDGE, m.area.high[Axis.WIDE] - _STUD_EDGE)
    if m.run == Axis.WIDE:
        return [(stud, m.middle + m.aside) for stud in studs]
    return [(run, stud) for stud in studs for run, _ in _usual_spots(m)]


def _studs(bench: Bench, low: float, high: float) -> list[float]:
    room = bench.piece.room
    if room.studs is None or room.first_stud is None:
        return []
    first = ceil((low - room.first_stud) / room.studs)
    last = floor((high - room.first_stud) / room.studs)
    return [room.first_stud + i * room.studs for i in range(first, last + 1)]
