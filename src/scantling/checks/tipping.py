"""Does it tip over: at rest, with lids and drawers open, with people and pushes on it?

Moments about the edges of what stands on the floor, in every pose; a piece tied to the wall is told
what its fixing must hold. A margin of 1.5 is wanted (common practice). What it holds may help as little
as it may be missing: the worse of full and empty is told (EN 1990 leaves favourable variable actions
out; from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import radians, tan

from scantling.checks.examined import GRAVITY, Examined
from scantling.checks.finding import Finding, Mend
from scantling.checks.loads import Bearing, bearings, contents_named, is_flat
from scantling.checks.poses import REST, own_name, poses_to_try
from scantling.checks.rules import rule
from scantling.checks.standing import Balance, GroundEdge, Push, Weight, balance, floor_parts, ground_edges
from scantling.checks.ties import groups_tied, is_fixed_to_floor, is_fixed_to_wall, is_hung
from scantling.geometry import pose_placements
from scantling.piece.model import FLOOR, WALL, Axis, Box, Face, Load, PartName, Placement, Pose, Vec3

SITS_IN = 60.0  # mm from the edge: where a person's weight comes down; judgement
LEANS = 60.0  # kg on the edge of a table top: trade practice, low end
UNDER_LEANING = 1200.0  # mm: nobody leans on what is higher
SMALL = 500.0  # N mm: tipping moments below this are left alone
ALIKE = 6  # digits: of edges that differ by less, as mirror images do, the first is told
CHILD = 27.2  # kg: 60 lb, 16 CFR 1261
TILT = 1.5  # degrees: rear raised 0.43 in, from memory
LEAST_HEIGHT, LEAST_MASS = 686.0, 13.6  # clothing storage in the rule's scope
DRAWER_OUT = 2.0 / 3.0  # of its depth, on wooden runners; trade practice

EMPTY = "with nothing on it or in it"
CLOTHES = frozenset({"clothes", "linen"})  # what the rule for clothing storage is about
_ACROSS = {"left": "right", "right": "left", "front": "back", "back": "front"}
_PUSHED = {Face.BOTTOM: "pressing down", Face.TOP: "lifting"}
_PUSHED |= {face: f"pushing to the {face.word}" for face in (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)}

Moves = Mapping[PartName, Placement]


@dataclass(frozen=True, slots=True)
class Scenario:
    """One state with what acts in it."""

    pose: str
    words: str
    weights: tuple[Weight, ...]
    pushes: tuple[Push, ...]
    load: Load | None = None


def tipping(examined: Examined) -> Iterator[Finding]:
    """The worst of every pose; then leaning on the top, slenderness and the clothing storage rule."""
    edges = () if is_hung(examined) else ground_edges(examined)
    if not edges:
        return
    fixed = WALL if is_fixed_to_wall(examined) else FLOOR if is_fixed_to_floor(examined) else None
    for pose in poses_to_try(examined):
        worst = _worst(examined, _scenarios(examined, edges, pose))
        if worst is not None:
            yield from _tip_finding(examined, *worst, fixed)
    if fixed:
        yield from _needs_its_fixing(examined, edges, fixed)
    else:
        yield from _leaning(examined, edges)
        yield from _slender(examined)
        yield from _clothing(examined, edges)


def _worst(
    examined: Examined, scenarios: list[tuple[Scenario, GroundEdge]]
) -> tuple[Scenario, Balance] | None:
    floor = examined.piece.overall.low[Axis.HIGH]
    found = [(s, balance(edge, s.weights, s.pushes, floor)) for s, edge in scenarios]
    found = [(s, b) for s, b in found if b.tipping > SMALL]
    return min(found, key=lambda pair: round(pair[1].ratio, ALIKE), default=None)


def _scenarios(
    examined: Examined, edges: tuple[GroundEdge, ...], pose: Pose
) -> list[tuple[Scenario, GroundEdge]]:
    moves = pose_placements(examined.piece, pose.steps)
    own, stored = tuple(_own_weights(examined, moves)), tuple(_stored_weights(examined, moves))
    full = (*own, *stored)
    found = [(Scenario(pose.name, "its own weight and what it holds", full, ()), edge) for edge in edges]
    if stored:
        found += [(Scenario(pose.name, f"its own weight, {EMPTY}", own, ()), edge) for edge in edges]
    for load in examined.piece.loads:
        if (load.pose or REST) == pose.name and load.amount is not None and load.kind not in ("fill", "rest"):
            words, sitters = _words(examined, load), tuple(_sitters(examined, load))
            states = [(words, full), (f"{words}, {EMPTY}", own)][: 2 if stored else 1]
            for edge in edges:
                found += [
                    (Scenario(pose.name, said, (*weights, *sitters), (push,), load), edge)
                    for push in _pushes(examined, load, edge, moves)
                    for said, weights in states
                ]
    return found


def _own_weights(examined: Examined, moves: Moves) -> Iterator[Weight]:
    for name, solid in examined.scene.solids.items():
        at = moves[name].point(solid.centre) if name in moves else solid.centre
        yield Weight(examined.mass.by_part[name], at)


def _stored_weights(examined: Examined, moves: Moves) -> Iterator[Weight]:
    """What it holds, what fills it and what rests on it: any of it may be gone when someone pushes."""
    for hold in examined.piece.holds:
        carrier = next((name for name in hold.on if name in moves), None)
        at = moves[carrier].point(hold.box.centre) if carrier else hold.box.centre
        yield Weight(hold.mass, at)
    for bearing in bearings(examined):
        if bearing.load is not None and bearing.load.kind in ("fill", "rest"):
            at = _over(examined.bounds(bearing.part))
            yield Weight(bearing.mass, moves[bearing.part].point(at) if bearing.part in moves else at)


def _sitters(examined: Examined, pushed: Load) -> Iterator[Weight]:
    """Whoever sits on what is pushed: seats are tried with their load on them."""
    for load in examined.piece.loads:
        if pushed.kind == "push" and load.kind in ("sit", "stand") and load.pose == pushed.pose:
            for name in set(load.on) & set(pushed.on):
                yield Weight((load.amount or 0.0) / len(load.on), _over(examined.bounds(name)))


def _over(box: Box) -> Vec3:
    return (box.centre[0], box.centre[1], box.high[2])


def _pushes(examined: Examined, load: Load, edge: GroundEdge, moves: Moves) -> Iterator[Push]:
    assert load.amount is not None
    person = load.kind in ("sit", "stand")
    force = load.amount * GRAVITY if person else load.amount
    toward = (0.0, 0.0, -1.0) if person or load.toward is None else load.toward.normal
    for name in load.on:
        yield Push(force, _farthest(examined, name, edge, moves, SITS_IN if person else 0.0), toward)


def _farthest(
    examined: Examined, name: PartName, edge: GroundEdge, moves: Moves, inward: float = 0.0
) -> Vec3:
    """The place on a part that lies farthest outside an edge, at the part's top, `inward` of its rim."""
    points = examined.corners(name)
    if name in moves and not moves[name].is_identity:
        points = tuple(moves[name].point(point) for point in points)
    far = max(points, key=lambda p: edge.beyond((p[0], p[1])))
    top = max(point[2] for point in points)
    return (far[0] - inward * edge.normal[0], far[1] - inward * edge.normal[1], top)


def _words(examined: Examined, load: Load) -> str:
    assert load.amount is not None
    where = load.on[0] if len(load.on) == 1 else f"{load.on[0]} or its like"
    if load.kind == "push":
        way = _PUSHED[load.toward] if load.toward else "pressing down"
        return f"{examined.weight(load.amount / GRAVITY)} {way} on {where}"
    return f"{examined.weight(load.amount)} {load.kind}ting at the edge of {where}".replace(
        "standting", "standing"
    )


def _tip_finding(
    examined: Examined, scenario: Scenario, worst: Balance, fixed: str | None
) -> Iterator[Finding]:
    margin = rule("tips easily").allowed
    if worst.ratio >= margin:
        return
    pose = "" if scenario.pose == REST else f" with {scenario.pose}"
    if fixed:
        yield (_anchor if fixed == WALL else _bolted_down)(examined, scenario, worst)
        return
    code = "tips over" if worst.ratio < rule("tips over").allowed else "tips easily"
    where = tuple(scenario.load.on) if scenario.load else floor_parts(examined)
    yield rule(code).found(
        f"{scenario.words}{pose}: it is held down {worst.ratio:.2f} times against tipping to the "
        f"{worst.edge.word}; {margin:g} times is wanted",
        where,
        worst.ratio,
        limit=margin,
        mend=Mend(_steadier(examined, worst, margin)),
        pose=own_name(examined, scenario.pose),
        place=scenario.load.place if scenario.load else None,
    )


def _steadier(examined: Examined, worst: Balance, margin: float) -> str:
    """The ways to steady it that stay in proportion, each solved to just reach the margin."""
    out = worst.feet_outward(margin)
    heavy = (margin * worst.tipping - worst.holding) / GRAVITY / max(_reach_back(examined, worst.edge), 1.0)
    ways = []
    if out < examined.piece.overall.size(Axis.HIGH) / 3:
        ways.append(f"set the feet {examined.length(examined.step_up(out))} farther to the {worst.edge.word}")
    if heavy < examined.mass.total:
        ways.append(f"add {examined.weight_at_least(heavy)} low down at the {_ACROSS[worst.edge.word]}")
    return ", or ".join([*ways, "fix it to the wall or the floor"])


def _reach_back(examined: Examined, edge: GroundEdge) -> float:
    """From the edge to the far side of what stands on the floor. [mm]"""
    return max(-edge.beyond(other.at) for other in ground_edges(examined))


def _anchor(examined: Examined, scenario: Scenario, worst: Balance) -> Finding:
    margin = rule("tips easily").allowed
    height = _anchor_height(examined)
    force = (margin * worst.tipping - worst.holding) / height
    pose = "" if scenario.pose == REST else f" with {scenario.pose}"
    return rule("anchor carries the tipping").found(
        f"{scenario.words}{pose}: the wall fixing at {examined.length(height)} keeps it from tipping to the "
        f"{worst.edge.word}; it must hold {examined.force(force)}",
        number=force,
        pose=own_name(examined, scenario.pose),
        mend=Mend("fix it into a stud, and put it up before the piece is loaded"),
    )


def _bolted_down(examined: Examined, scenario: Scenario, worst: Balance) -> Finding:
    moment = rule("tips easily").allowed * worst.tipping - worst.holding
    pull = moment / max(_reach_back(examined, worst.edge), 1.0)
    pose = "" if scenario.pose == REST else f" with {scenario.pose}"
    return rule("floor fixing carries the tipping").found(
        f"{scenario.words}{pose}: its fixing to the floor keeps it from tipping to the {worst.edge.word}; "
        f"it must hold {examined.moment(moment / 1000.0)}, at least {examined.force(pull)} of pull in all at "
        f"the {_ACROSS[worst.edge.word]}",
        number=moment / 1000.0,
        pose=own_name(examined, scenario.pose),
        mend=Mend("fix it into joists or masonry, not into the floor's covering alone, before it is loaded"),
    )


def _anchor_height(examined: Examined) -> float:
    floor = examined.piece.overall.low[Axis.HIGH]
    tied = [j.first for j in examined.piece.joints if j.second == WALL]
    tied += [h.joins[0] for h in examined.piece.hardware if h.joins is not None and WALL in h.joins]
    return max(examined.bounds(name).centre[Axis.HIGH] for name in tied) - floor


def _leaning(examined: Examined, edges: tuple[GroundEdge, ...]) -> Iterator[Finding]:
    """Someone leans on the edge of the highest flat part, unless its load is written."""
    flat = [p.name for p in examined.piece.parts if is_flat(examined, p.name)]
    flat = [n for n in flat if examined.bounds(n).high[Axis.HIGH] < UNDER_LEANING]
    if not flat:
        return
    top = max(flat, key=lambda n: (round(examined.bounds(n).high[Axis.HIGH], 1), examined.bounds(n).volume))
    if any(top in load.on and load.kind != "rest" for load in examined.piece.loads):
        return
    own, floor = tuple(_own_weights(examined, {})), examined.piece.overall.low[Axis.HIGH]
    states = (own, (*own, *_stored_weights(examined, {})))
    pushes = [(e, Push(LEANS * GRAVITY, _farthest(examined, top, e, {}), (0.0, 0.0, -1.0))) for e in edges]
    tried = (balance(edge, weights, (push,), floor) for edge, push in pushes for weights in states)
    worst = min(tried, key=lambda b: round(b.ratio, ALIKE))
    limit = rule("tips when leaned on").allowed
    if worst.ratio < limit:
        out = examined.length(examined.step_up(worst.feet_outward(limit)))
        yield rule("tips when leaned on").found(
            f"{examined.weight(LEANS)} on the {worst.edge.word} edge of {top} tips it",
            (top,),
            worst.ratio,
            mend=Mend(
                f"set the feet {out} farther to the {worst.edge.word}, or shorten the overhang by as much"
            ),
        )


def _slender(examined: Examined) -> Iterator[Finding]:
    box = examined.piece.overall
    ratio = box.size(Axis.HIGH) / min(box.size(Axis.DEEP), box.size(Axis.WIDE))
    for code in ("must never stand free", "tall for its depth"):
        limit = rule(code).allowed
        if ratio > limit:
            deep = examined.length(examined.step_up(box.size(Axis.HIGH) / limit))
            yield rule(code).found(
                f"it is {ratio:.1f} times as high as it is deep; over {limit:g} it is tied to the wall",
                number=ratio,
                mend=Mend(
                    f"add a wall strap (`kind: wall strap, joins: [..., wall]`), or make it {deep} deep"
                ),
            )
            return


def _needs_its_fixing(examined: Examined, edges: tuple[GroundEdge, ...], fixed: str) -> Iterator[Finding]:
    """What would be found if the fixing to wall or floor were left out: it is part of the design."""
    missed = [*_slender(examined), *_clothing(examined, edges)]
    into = "a stud" if fixed == WALL else "joists or masonry"
    if missed:
        yield rule("stands only with its strap").found(
            f"without its fixing to the {fixed}: {missed[0].message}; "
            "the fixing is part of the piece, also when it moves house",
            missed[0].where,
            missed[0].number,
            limit=missed[0].limit,
            mend=Mend(f"fix it into {into} before anything is put in, and check the fixing once a year"),
        )


def _clothing(examined: Examined, edges: tuple[GroundEdge, ...]) -> Iterator[Finding]:
    """All drawers out with clothes, a child's weight on one, on carpet that tilts it forward."""
    clothes = [
        load
        for load in examined.piece.loads
        if load.kind == "fill" and load.contents and contents_named(load.contents).word in CLOTHES
    ]
    high = examined.piece.overall.size(Axis.HIGH)
    if not clothes or high < LEAST_HEIGHT or examined.mass.total < LEAST_MASS:
        return
    front = min(edges, key=lambda edge: edge.normal[1])
    floor, lean = examined.piece.overall.low[Axis.HIGH], tan(radians(TILT))
    weights = []
    drawers = {name for load in clothes for name in load.on}
    out = {name: _drawer_travel(examined, name) for name in drawers}
    bearing_weights = [
        (b.part, Weight(b.mass, _over(examined.bounds(b.part)))) for b in bearings(examined) if _is_fill(b)
    ]
    own = [(n, Weight(examined.mass.by_part[n], s.centre)) for n, s in examined.scene.solids.items()]
    for name, weight in own + bearing_weights:
        x, y, z = weight.at
        weights.append(Weight(weight.mass, (x, y - out.get(name, 0.0) - (z - floor) * lean, z)))
    fore = min(examined.bounds(n).low[Axis.DEEP] - out[n] for n in drawers)
    child = Push(CHILD * GRAVITY, (examined.piece.overall.centre[0], fore, floor), (0.0, 0.0, -1.0))
    worst = balance(front, weights, (child,), floor)
    if worst.ratio < rule("clothing storage rule").allowed:
        yield rule("clothing storage rule").found(
            f"with every drawer out and {examined.weight(CHILD)} on one, on carpet, it is held down "
            f"{worst.ratio:.2f} times; a clothing chest this size must stand",
            tuple(sorted(drawers))[:1],
            worst.ratio,
            mend=Mend("tie it to the wall with a strap into a stud, or let only one drawer open at a time"),
        )


def _is_fill(bearing: Bearing) -> bool:
    return bearing.load is not None and bearing.load.kind == "fill"


def _drawer_travel(examined: Examined, name: PartName) -> float:
    group = next(g for g in groups_tied(examined) if name in g)
    low = min(examined.bounds(n).low[Axis.DEEP] for n in group)
    high = max(examined.bounds(n).high[Axis.DEEP] for n in group)
    return (high - low) * DRAWER_OUT
