"""Tenon, through tenon and bridle: shoulders, haunch, splitting, and two that meet in one leg."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.bolts import BOLTED, bolt_diameter
from scantling.joinery.features import Addition, Cut, Feature, Prism, Shaped
from scantling.joinery.made import Made, layout, notice
from scantling.joinery.meeting import Meeting, end_faces
from scantling.joinery.shoulders import shoulder_cuts
from scantling.piece.model import Axis, Face, Notice

_STRAIGHT = frozenset({"tenon", "through tenon"})
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Plan:
    """`long`: tenon; `deep`: mortise; `runs`: one span for each tenon; `haunches`: spans of short wood."""

    long: float
    deep: float
    thick: Span
    runs: tuple[Span, ...]
    haunches: tuple[Span, ...]
    wish: float


def tenon(m: Meeting, bench: Bench) -> Made:
    """A blind tenon and its mortise."""
    return _made(m, bench, _plan(m, bench))


def through_tenon(m: Meeting, bench: Bench) -> Made:
    """A tenon that comes out flush on the far side."""
    room = m.second_room
    return _made(m, bench, replace(_plan(m, bench), long=room, deep=room, haunches=(), wish=room))


def bridle(m: Meeting, bench: Bench) -> Made:
    """A third of the thickness, the full width, open at the end of the second part."""
    room = m.second_room
    plan = Plan(room, room, _thick(m, bench), (m.along,), (), room)
    return _made(m, bench, plan)


def _made(m: Meeting, bench: Bench, plan: Plan) -> Made:
    tenons = [
        Addition(m.block(r, plan.thick, (0, plan.long)), m.face, "tenon", m.joint.id) for r in plan.runs
    ]
    haunch = min(rules.number("tenon haunch deep"), plan.long)
    stubs = [
        Addition(m.block(r, plan.thick, (0, haunch)), m.face, "haunch", m.joint.id) for r in plan.haunches
    ]
    mortises = [_mortise(m, bench, plan, r) for r in plan.runs]
    grooves = [
        m.second_cut(m.block(r, _widened(plan.thick, "tenon fit"), (0, haunch + 1)), "mortise")
        for r in plan.haunches
    ]
    shoulders = shoulder_cuts(m, plan.runs, plan.thick)
    mitre, met, meets = _mitred(m, bench, plan)
    wide = sum(high - low for low, high in plan.runs)
    thick = plan.thick[1] - plan.thick[0]
    numbers = (
        ("count", float(len(plan.runs))),
        ("thick", thick),
        ("wide", plan.runs[0][1] - plan.runs[0][0]),
        ("long", plan.long),
        ("deep", plan.deep),
        ("longer by", plan.long),
    )
    glued = 2 * (wide + thick * len(plan.runs)) * plan.long
    made = layout(m, _words(m, bench, plan), numbers, glued=glued, source=rules.source("tenon thickness"))
    first: tuple[Feature, ...] = (*tenons, *stubs, *shoulders, *mitre)
    return Made(
        first, (*mortises, *grooves), made, (), (*_notices(m, bench, plan), *met), meets=frozenset(meets)
    )


def _plan(m: Meeting, bench: Bench) -> Plan:
    thick = _thick(m, bench)
    wish = m.settings.deep or _usual_length(m, bench, thick[1] - thick[0])
    gap = m.settings.gap if m.settings.gap is not None else rules.number("tenon glue space")
    said_gap = m.settings.gap or 0.0
    most = m.second_room - rules.number("tenon wood left")
    long = min(wish - said_gap, max(bench.step, most - gap)) if m.settings.deep is None else wish - said_gap
    long = min(long, max(bench.step, m.second_room - gap), max(bench.step, _before_bolts(m, bench) - gap))
    free, haunches = _free_run(m)
    return Plan(long, long + gap, thick, _split(free, m.settings.count), haunches, wish)


def _before_bolts(m: Meeting, bench: Bench) -> float:
    """How deep a mortise can go before it comes within 3 mm of bolts that cross it; endless without any."""
    depths = [9e9]
    for other in bench.meetings_of(m.second) if m.second else ():
        crosses = other.second is m.second and other.across == m.face.axis and other.run == m.run
        if other.joint.method not in BOLTED or not crosses or not (m.is_upright and other.is_upright):
            continue
        if other.low < m.high and m.low < other.high:
            bore = bolt_diameter(other) / 2 + rules.number("holes apart")
            depths.append(m.face.sign * (other.middle - m.plane) - bore)
    return min(depths)


def _thick(m: Meeting, bench: Bench) -> Span:
    ratio = rules.number("tenon thickness")
    half = bench.rounded(m.settings.size[0] if m.settings.size else m.thin * ratio) / 2
    return m.middle - half, m.middle + half


def _usual_length(m: Meeting, bench: Bench, thick: float) -> float:
    wish = max(rules.number("tenon length"), rules.number("tenon length over thickness") * thick)
    return bench.rounded(min(wish, rules.number("tenon most of leg") * m.second_room))


def _free_run(m: Meeting) -> tuple[Span, tuple[Span, ...]]:
    """The run left between shoulders, lower where the leg ends just there, with a haunch in between."""
    shoulder = min(rules.number("tenon shoulder"), m.length / 6)
    below = rules.number("tenon below leg top")
    ends, haunches = [m.low + shoulder, m.high - shoulder], []
    for side, face in enumerate(end_faces(m.run)):
        wanted = m.other.face(face) - face.sign * below
        if face.sign * (ends[side] - wanted) > 0.5 and m.length > 3 * below:
            haunches.append((min(wanted, m.along[side]), max(wanted, m.along[side])))
            ends[side] = wanted
    return (ends[0], ends[1]), tuple(haunches)


def _split(free: Span, said: int | None) -> tuple[Span, ...]:
    """One tenon, as many as said, or as keep each under the widest; a quarter of the width between."""
    width = free[1] - free[0]
    widest = rules.number("tenon widest")
    usual = 2 if width <= 2 * widest else round(width / widest) + 1
    count = said or (1 if width <= widest else usual)
    if count == 1:
        return (free,)
    gap = width * rules.number("tenon gap over width") / (count - 1)
    each = (width - gap * (count - 1)) / count
    return tuple((free[0] + i * (each + gap), free[0] + i * (each + gap) + each) for i in range(count))


def _mortise(m: Meeting, bench: Bench, plan: Plan, run: Span) -> Cut | Shaped:
    """The mortise of one tenon; longer where the tenon is left dry and must be free to move."""
    free = _play(m, bench, run)
    block = m.block((run[0] - free, run[1] + free), _widened(plan.thick, "tenon fit"), (0, plan.deep))
    return m.second_cut(block, "mortise")


def _play(m: Meeting, bench: Bench, run: Span) -> float:
    glued = m.glued_along
    if (glued[0] <= run[1] and run[0] <= glued[1]) or m.settings.glue is None:
        return 0.0
    far = max(abs(run[0] - sum(glued) / 2), abs(run[1] - sum(glued) / 2))
    return (bench.travel(m.first, m.run, far) or 0.0) + 0.5


def _widened(span: Span, rule: str) -> Span:
    fit = rules.number(rule) / 2
    return span[0] - fit, span[1] + fit


def _mitred(m: Meeting, bench: Bench, plan: Plan) -> tuple[list[Shaped], list[Notice], list[str]]:
    """What the tenon loses to others that enter the same part from a side."""
    cuts: list[Shaped] = []
    notices: list[Notice] = []
    meets: list[str] = []
    for other in bench.meetings_of(m.second) if m.second else ():
        corner = _corner(m, plan, other, bench)
        if corner is None:
            continue
        near, far, _ = corner
        cuts.append(_mitre_cut(m, plan, corner))
        meets.append(other.joint.id)
        message = (
            f"its tenon meets the tenon of {other.first.name} inside: both are mitred,"
            f" here from {bench.said(near)} to {bench.said(min(far, plan.long))} long"
        )
        notices.append(notice(m, "tenons mitred", message, number=near))
    return cuts, notices, meets


Corner = tuple[float, float, Face]


def _corner(m: Meeting, plan: Plan, other: Meeting, bench: Bench) -> Corner | None:
    """Depths at which the other tenon's near and far cheek lie, and the side it comes from."""
    same = other.joint.id == m.joint.id or other.second is not m.second
    if same or other.joint.method not in _STRAIGHT or other.face.axis == m.face.axis:
        return None
    if other.run != m.run or not (m.motion.is_identity and other.motion.is_identity):
        return None
    theirs = _plan(other, bench)
    if not any(a[0] < b[1] and b[0] < a[1] for a in plan.runs for b in theirs.runs):
        return None
    near, far = _depths(m, theirs.thick)
    their_near, _ = _depths(other, plan.thick)
    apart = rules.number("tenon mitre gap")
    if plan.long + apart <= near or theirs.long + apart <= their_near:
        return None
    return near, far, other.face.opposite


def _depths(m: Meeting, thick: Span) -> Span:
    depths = sorted(m.face.sign * (place - m.plane) for place in thick)
    return depths[0], depths[1]


def _mitre_cut(m: Meeting, plan: Plan, corner: Corner) -> Shaped:
    """The triangle beyond the diagonal, and half the gap, taken from the tenon's tip."""
    near, far, side = corner
    half_gap = rules.number("tenon mitre gap") / 2**0.5
    tip = max(plan.long, far) + 0.1
    low, high = plan.thick if side.sign < 0 else plan.thick[::-1]
    points = ((near - half_gap, low), (tip, low), (tip, high), (far - half_gap, high))
    run = (plan.runs[0][0] - 0.1, plan.runs[-1][1] + 0.1)
    outline = tuple(_in_plane(m, depth, across) for depth, across in points)
    return Shaped(Prism(int(m.run), run[0], run[1], outline), m.face, "tenon mitre", m.joint.id)


def _in_plane(m: Meeting, depth: float, across: float) -> tuple[float, float]:
    at = m.at(0.0, across, depth)
    u, v = (a for a in Axis if a != m.run)
    return at[u], at[v]


def _words(m: Meeting, bench: Bench, plan: Plan) -> str:
    count = "" if len(plan.runs) == 1 else f"{len(plan.runs)} times "
    thick, wide = plan.thick[1] - plan.thick[0], plan.runs[0][1] - plan.runs[0][0]
    words = (
        f"{m.joint.method}: {count}{bench.said(thick)} thick, {bench.said(wide)} wide,"
        f" {bench.said(plan.long)} long; mortise {bench.said(plan.deep)} deep"
    )
    if plan.haunches:
        words += f"; haunched where the {m.second.name if m.second else 'leg'} ends"
    return words + (f"; wedged {m.settings.wedge}" if m.settings.wedge else "")


def _notices(m: Meeting, bench: Bench, plan: Plan) -> tuple[Notice, ...]:
    short = _before_bolts(m, bench)
    if plan.deep > short - 0.1 and plan.wish > plan.long + 0.1 and m.joint.method == "tenon":
        message = (
            f"the tenon is {bench.said(plan.long)} long, not {bench.said(plan.wish)}, to clear the bolts"
        )
        remedy = f"write deep: {bench.number(plan.long)}, or move the bolts"
        return (notice(m, "tenon shortened", message, number=plan.long, remedy=remedy),)
    left = rules.number("tenon wood left")
    if m.joint.method != "tenon" or plan.wish <= m.second_room - left + 0.1 or plan.wish <= plan.long - 0.1:
        return ()
    most = max(0.0, m.second_room - left)
    name = m.second.name if m.second else "wall"
    message = (
        f"tenon {bench.said(plan.wish)} long, but the {name} is {bench.said(m.second_room)} thick there;"
        f" at most {bench.said(most)} leaves {bench.said(left)}"
    )
    return (
        notice(
            m,
            "tenon too long",
            message,
            number=plan.wish,
            remedy=f"write deep: {bench.number(most)}",
            must=True,
        ),
    )
