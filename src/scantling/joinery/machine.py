"""The whole stage: joints, then fittings, then work, then end cuts; one machined part for each part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from scantling.errors import ResolveError
from scantling.joinery.bench import Bench
from scantling.joinery.bounds import prism_bounds, round_all
from scantling.joinery.clash import Taken, break_outs, clash_notice, clashes_of, variants
from scantling.joinery.depths import growth_of
from scantling.joinery.ends import end_features
from scantling.joinery.features import (
    Addition,
    Cope,
    Cut,
    Feature,
    HardwareUse,
    Hole,
    JointLayout,
    MachinedPart,
    MachinedPiece,
    Shaped,
    Trim,
)
from scantling.joinery.fittings import Fitted
from scantling.joinery.kinds import fit
from scantling.joinery.made import Made
from scantling.joinery.meeting import Meeting, both_ends, meeting_of
from scantling.joinery.methods import METHOD_RULES, methods_with_rules
from scantling.joinery.stocked import from_shop
from scantling.joinery.work import OWNER, core_box, work_features
from scantling.piece.model import WALL, Hardware, Joint, Notice, Part, PartName, Piece, Room
from scantling.shop.model import Shop

_OF_THE_BODY = frozenset({"long mitre", "bevelled end"})  # trims and copes shape these with the body
_EITHER_WAY = frozenset({"mitre", "splined mitre"})
_NOTHING = 0.01  # mm


@dataclass
class _Gathered:
    """Everything made so far, in order."""

    features: dict[PartName, list[Feature]]
    taken: Taken = field(default_factory=Taken)
    layouts: list[JointLayout] = field(default_factory=list)
    hardware: list[HardwareUse] = field(default_factory=list)
    notices: list[Notice] = field(default_factory=list)

    def put(self, part: PartName, owner: str, features: tuple[Feature, ...]) -> None:
        """Keep what takes or adds wood; where a part is too thin for any, a notice has said so."""
        real = tuple(feature for feature in features if _has_depth(feature))
        self.features[part].extend(real)
        self.taken.add(part, owner, real)


def _has_depth(feature: Feature) -> bool:
    match feature:
        case Hole():
            return feature.deep > _NOTHING and feature.diameter > _NOTHING
        case Cut() | Addition():
            return min(feature.box.sizes) > _NOTHING
        case _:
            return True


def machine_piece(piece: Piece, shop: Shop) -> MachinedPiece:
    """What every joint, fitting and `work` entry puts on the parts, in the fixed order of stages.

    Raises ResolveError for a method that has no layout rules; what cannot be made is a notice.
    """
    meetings = {
        joint.id: meeting_of(_right_way(joint, piece.part_by_name), piece.part_by_name)
        for joint in piece.joints
        if _known(joint)
    }
    bench = Bench(piece, shop, meetings, {})
    bench = Bench(piece, shop, meetings, growth_of(meetings, bench))
    gathered = _Gathered({part.name: [] for part in piece.parts})
    for m in sorted(meetings.values(), key=lambda m: _order(m, piece.room)):
        _make_joint(m, bench, gathered)
    for fitting in piece.hardware:
        _make_fitting(fit(fitting, bench), fitting, bench, gathered)
    for part in piece.parts:
        _make_work(part, bench, gathered)
    for name, features in end_features(piece, [end for m in meetings.values() for end in both_ends(m)]):
        gathered.features[name].extend(features)
    places = {joint.id: joint.place for joint in piece.joints} | {h.name: h.place for h in piece.hardware}
    parts = tuple(_machined(part, gathered.features[part.name]) for part in piece.parts)
    for made in parts:
        gathered.notices.extend(break_outs(made.part, made.holes, bench, places))
    order = {joint.id: i for i, joint in enumerate(piece.joints)}
    hardware = tuple(from_shop(use, shop) for use in gathered.hardware)
    layouts = tuple(sorted(gathered.layouts, key=lambda each: order.get(each.joint, len(order))))
    return MachinedPiece(piece, parts, layouts, hardware, tuple(gathered.notices))


def _known(joint: Joint) -> bool:
    if joint.method in METHOD_RULES:
        return True
    known = ", ".join(methods_with_rules())
    raise ResolveError(f"how to lay out “{joint.method}” is not known", joint.place, f"write one of: {known}")


def _right_way(joint: Joint, parts: Mapping[PartName, Part]) -> Joint:
    """A mitre has no first part in the trade: the one that ends at the other's face is taken first."""
    first, second = parts.get(joint.first), parts.get(joint.second)
    if joint.method not in _EITHER_WAY or first is None or second is None:
        return joint
    ends_first = joint.first_face is not None and joint.first_face.axis == first.grain
    ends_second = joint.second_face is not None and joint.second_face.axis == second.grain
    if ends_first or not ends_second:
        return joint
    return replace(
        joint,
        first=joint.second,
        second=joint.first,
        first_face=joint.second_face,
        second_face=joint.first_face,
    )


def _order(m: Meeting, room: Room) -> tuple[int, int, int, str]:
    """What cannot be shifted comes first, as what is bound to the studs; then the maker's order.

    The same for mirrored copies.
    """
    bound = m.joint.second == WALL and room.studs is not None
    rank = 0 if bound else METHOD_RULES[m.joint.method].rank
    return rank, m.joint.line, int(m.face.axis), m.joint.id


def _make_joint(m: Meeting, bench: Bench, gathered: _Gathered) -> None:
    """Both ends of a stick that spans a ring are one joint, told once."""
    ends = [_make_end(end, bench, gathered) for end in both_ends(m)]
    made = ends[0].layout
    if len(ends) > 1:
        glued = sum(end.layout.glued_area for end in ends)
        made = replace(made, text=f"{made.text}; the same at the other end", glued_area=glued)
    gathered.layouts.append(made)


def _make_end(m: Meeting, bench: Bench, gathered: _Gathered) -> Made:
    rule = METHOD_RULES[m.joint.method].rule
    made = rule(m, bench)
    clashes = clashes_of(made, m, gathered.taken)
    for variant in variants(m, made) if clashes else ():
        other = rule(variant, bench)
        if not clashes_of(other, m, gathered.taken):
            made, clashes = other, ()
            break
    count = int(dict(made.layout.numbers).get("count", 0)) if clashes else 0
    gathered.notices.extend(clash_notice(clash, bench, m.joint.place, count) for clash in clashes)
    gathered.put(m.first.name, m.joint.id, made.first)
    if m.second is not None:
        gathered.put(m.second.name, m.joint.id, made.second)
    gathered.hardware.extend(made.hardware)
    gathered.notices.extend(made.notices)
    return made


def _make_work(part: Part, bench: Bench, gathered: _Gathered) -> None:
    """What the maker asks for is cut where it is said; bores of joints that it meets are told."""
    features = work_features(part, bench.piece.joints)
    bores = tuple(feature for feature in features if isinstance(feature, Hole))
    clashes = gathered.taken.clashes(part.name, OWNER, bores)
    gathered.notices.extend(clash_notice(clash, bench, part.place) for clash in clashes)
    gathered.put(part.name, OWNER, features)


def _make_fitting(made: Fitted, fitting: Hardware, bench: Bench, gathered: _Gathered) -> None:
    for part, features in made.features:
        clashes = gathered.taken.clashes(part, fitting.name, features)
        gathered.notices.extend(clash_notice(clash, bench, fitting.place) for clash in clashes)
        gathered.put(part, fitting.name, features)
    gathered.layouts.append(made.layout)
    gathered.hardware.extend(made.hardware)
    gathered.notices.extend(made.notices)


def _machined(part: Part, features: list[Feature]) -> MachinedPart:
    added = tuple(f for f in features if isinstance(f, Addition))
    shaped = tuple(f for f in features if isinstance(f, Shaped))
    grown = [a.box for a in added] + [prism_bounds(s.prism) for s in shaped if s.adds]
    cut_box = round_all([part.box, *grown]) or part.box
    return MachinedPart(
        part,
        cut_box,
        holes=tuple(f for f in features if isinstance(f, Hole)),
        cuts=tuple(f for f in features if isinstance(f, Cut)),
        additions=tuple(a for a in added if a.kind not in _OF_THE_BODY),
        shaped=shaped,
        trims=tuple(f for f in features if isinstance(f, Trim)),
        copes=tuple(f for f in features if isinstance(f, Cope)),
        core_box=core_box(part, cut_box),
    )
