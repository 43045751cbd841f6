"""Rabbet, dado, groove and tongue: one part's edge let into a long cut in the other."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.depths import housing_depth, housing_gap
from scantling.joinery.features import Addition
from scantling.joinery.frames import face_through
from scantling.joinery.made import Made, layout, notice
from scantling.joinery.meeting import Meeting, end_faces, is_solid, touches_end
from scantling.joinery.pegs import pegs
from scantling.joinery.shoulders import shoulder_cuts
from scantling.piece.model import Face, Notice

_SHORT_RUN = 40.0  # mm: a shorter housing is not worth stopping
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Housing:
    """`along`: of the wood that goes in; `cut_along`: of the cut; `stopped`: faces it stops short of."""

    deep: float
    gap: float
    along: Span
    cut_along: Span
    wood: Span
    cut: Span
    stopped: tuple[Face, ...]


def housing(m: Meeting, bench: Bench) -> Made:
    """The cut in the second part, and what the first grows by: `deep` less `gap`."""
    h = _housing(m, bench)
    kind = m.joint.method
    cut = m.second_cut(m.block(h.cut_along, h.cut, (0.0, h.deep)), kind)
    stand_off = m.settings.stand_off or 0.0
    grown = m.block(h.along, h.wood, (0.0, h.deep - h.gap))
    addition = Addition(grown, m.face, "tongue", m.joint.id)
    shoulders = shoulder_cuts(m, (h.along,), h.wood)
    area = (h.along[1] - h.along[0]) * (2 * (h.deep - h.gap) + (h.wood[1] - h.wood[0]))
    glued = 0.0 if m.settings.runs is not None or _floats(m) else area
    numbers = (
        ("deep", h.deep),
        ("wide", h.cut[1] - h.cut[0]),
        ("gap", h.gap),
        ("longer by", h.deep - h.gap),
        ("stand off", stand_off),
    )
    made = layout(m, _words(m, bench, h), numbers, glued=glued, source=rules.source(_rule(kind)))
    pegged = pegs(m, bench, h.deep - h.gap)
    first, second = (addition, *shoulders, *pegged.first), (cut, *pegged.second)
    return Made(first, second, made, pegged.hardware, (*_notices(m, bench, h), *pegged.notices))


def _floats(m: Meeting) -> bool:
    """A panel that is free in its groove unless the maker says where it is glued."""
    free = m.settings.gap is not None or is_solid(m.first.material)
    return m.joint.method == "groove" and m.settings.glue is None and free


def _rule(kind: str) -> str:
    return {"tongue": "tongue length", "groove": "groove depth"}.get(kind, f"{kind} depth over thickness")


def _housing(m: Meeting, bench: Bench) -> Housing:
    deep, gap = housing_depth(m, bench), housing_gap(m, bench)
    along, cut_along, stopped = _runs(m, bench, gap)
    wood = (m.area.low[m.across], m.area.high[m.across])
    if m.joint.method == "tongue":
        half = bench.rounded(_tongue_thick(m)) / 2
        wood = (m.middle - half, m.middle + half)
    return Housing(deep, gap, along, cut_along, wood, _cut_across(m, wood), stopped)


def _tongue_thick(m: Meeting) -> float:
    return m.settings.size[0] if m.settings.size else m.thin * rules.number("tongue thickness")


def _cut_across(m: Meeting, wood: Span) -> Span:
    """The measured thickness and its fit; a rabbet runs out to the nearer edge of the second part."""
    fit = rules.number("housing fit") / 2 if m.settings.runs is None else m.settings.runs
    low, high = wood[0] - fit, wood[1] + fit
    if m.joint.method != "rabbet":
        return low, high
    out_low, out_high = m.other.low[m.across], m.other.high[m.across]
    if wood[0] - out_low <= out_high - wood[1]:
        return out_low, high
    return low, out_high


def _runs(m: Meeting, bench: Bench, gap: float) -> tuple[Span, Span, tuple[Face, ...]]:
    """How far wood and cut run: on by what the first grows elsewhere, stopped where it would show."""
    grown = bench.grown(m, m.run)
    wood, cut, stopped = [m.low, m.high], [m.low, m.high], []
    for side, face in enumerate(end_faces(m.run)):
        sign = face.sign
        wood[side] += sign * grown[side]
        cut[side] = wood[side] + sign * (gap if grown[side] else 0.0)
        limit = m.other.face(face)
        if sign * (cut[side] - limit) >= -0.05:
            cut[side] = cut[side] if _runs_on(m, bench, face) else limit
            if _must_stop(m, bench, face):
                stop = limit - sign * rules.number("housing stops short")
                wood[side], cut[side] = stop, stop
                stopped.append(face)
    return (wood[0], wood[1]), (cut[0], cut[1]), tuple(stopped)


def _runs_on(m: Meeting, bench: Bench, face: Face) -> bool:
    """Whether the second part has wood beyond its box there, into which the cut goes on."""
    return m.second is not None and bench.is_lengthened(m.second.name, face_through(face, m.motion))


def _must_stop(m: Meeting, bench: Bench, face: Face) -> bool:
    """A dado or groove would come out of that face of the second part, in sight."""
    stops = m.joint.method in ("dado", "groove") and m.settings.runs is None and not m.settings.through
    if not stops or m.second is None or m.length < _SHORT_RUN or not m.motion.is_identity:
        return False
    if not touches_end(m.area, m.other, face):
        return False
    at = list(m.area.centre)
    at[m.run] = m.other.face(face)
    inside = m.face.sign * min(2.0, m.second_room / 2)
    at[m.face.axis] += inside
    return bench.shows(m.second, face, (at[0], at[1], at[2]))


def _words(m: Meeting, bench: Bench, h: Housing) -> str:
    wide, other = h.cut[1] - h.cut[0], m.second.name if m.second else "the wall"
    stop = rules.number("housing stops short")
    parts = [f"{m.joint.method} {bench.said(wide)} wide, {bench.said(h.deep)} deep in {other}"]
    if h.gap:
        parts.append(f"{bench.said(h.gap)} left at the bottom")
    if m.settings.stand_off:
        parts.append(f"the shoulder stands off {bench.said(m.settings.stand_off)}")
    parts += [f"stopped {bench.said(stop)} short of the {face.word}" for face in h.stopped]
    if m.settings.runs is not None:
        parts.append(f"runs free by {bench.said(m.settings.runs)} a side")
    return "; ".join(parts)


def _notices(m: Meeting, bench: Bench, h: Housing) -> tuple[Notice, ...]:
    return (*_too_deep(m, bench, h), *_unknown_play(m, bench))


def _unknown_play(m: Meeting, bench: Bench) -> tuple[Notice, ...]:
    """A solid panel whose movement cannot be worked out, and no gap said for it."""
    if m.joint.method != "groove" or m.settings.gap is not None or m.settings.runs is not None:
        return ()
    if bench.travel(m.first, m.face.axis, 1.0) is not None:
        return ()
    message = (
        f"how far the panel moves is not known: only {bench.said(rules.number('groove panel spare'))} is left"
    )
    remedy = "write gap: ..., or room: {air: {dry: 30 %, damp: 60 %, at: 70 F}}"
    return (notice(m, "movement unknown", message, remedy=remedy),)


def _too_deep(m: Meeting, bench: Bench, h: Housing) -> tuple[Notice, ...]:
    left = m.second_room - h.deep
    if left >= 2.0:
        return ()
    most = max(0.0, m.second_room - 2.0)
    message = (
        f"the {m.joint.method} is {bench.said(h.deep)} deep in a part {bench.said(m.second_room)} thick;"
        f" at most {bench.said(most)} leaves {bench.said(2.0)}"
    )
    return (
        notice(
            m, "cut too deep", message, number=h.deep, remedy=f"write deep: {bench.number(most)}", must=True
        ),
    )
