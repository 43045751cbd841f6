"""Parts as beams: which way each loaded part spans, how stiffly, and what its rails take from it.

Beams with shear (Wood Handbook Eq. 9-2, Table 9-1) on the spans found from joints and contacts. A part
held on all sides is taken as two crossing strips that share the load by their stiffness.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

from scantling.checks.examined import GRAVITY, Examined, grain_axis, panel_of, wood_of
from scantling.checks.loads import Bearing, bearings, spread_of
from scantling.checks.supports import Span, meeting_boxes, overhangs_of, spans_of
from scantling.piece.model import Axis, Part, PartName
from scantling.wood import (
    CANTILEVER_POINT,
    CANTILEVER_UNIFORM,
    POINT_SIMPLE,
    SHEAR_FREE,
    UNIFORM_SIMPLE,
    Beam,
    BeamCase,
    bending_moduli,
    creep_factor,
    deflection,
    modulus_across,
    shear_modulus_in,
)

BED = 600.0  # mm: a row of slats this broad is lain on, not sat on; judgement
PERSON = 350.0  # mm: how broad a person sits; judgement
HIGHEST_RAIL = 300.0  # mm: deeper parts are sides, not rails
OVERHANGING = {UNIFORM_SIMPLE: CANTILEVER_UNIFORM, POINT_SIMPLE: CANTILEVER_POINT}
MOMENT = {UNIFORM_SIMPLE: 1 / 8, POINT_SIMPLE: 1 / 4, CANTILEVER_UNIFORM: 1 / 2, CANTILEVER_POINT: 1.0}
SHORTEST = 150.0  # mm: shorter spans are not looked at


@dataclass(frozen=True, slots=True)
class Burden:
    """What lies on a part: kg, for years or for a while, spread or at the middle."""

    mass: float
    lasting: bool
    case: BeamCase
    words: str
    slats: bool = False  # a person shared by several slats
    bed: bool = False  # slats of a bed, which are meant to give
    whole: float = 0.0  # of a load shared by slats: all of it [kg]
    wood: float = 0.0  # how much of `mass` is the part itself, or what a rail carries [kg]


@dataclass(frozen=True, slots=True)
class Loaded:
    """One part spanning one way under a burden; `share` of it lies on this span.

    Of that, `carried` is taken this way where the part is held all round.
    """

    part: Part
    span: Span
    burden: Burden
    beam: Beam
    helped: float  # bending stiffness that parts fixed along it add [N mm²]
    creep: float
    share: float = 1.0
    carried: float = 1.0

    @property
    def mass(self) -> float:
        """What this span carries, with the wood itself. [kg]"""
        return self.burden.mass * self.share * self.carried

    @property
    def laid_on(self) -> float:
        """What people put on this span, without the wood. [kg]"""
        return (self.burden.mass - self.burden.wood) * self.share

    def laid_on_most(self, mass: float) -> float:
        """What people may put on it where it carries `mass` in all. [kg]"""
        return mass / self.carried - self.burden.wood * self.share

    @property
    def case(self) -> BeamCase:
        """Its row of Table 9-1: a beam on two supports, or one reaching past its last support."""
        return OVERHANGING[self.burden.case] if self.span.overhang else self.burden.case

    @property
    def moment(self) -> float:
        """Greatest bending moment. [N mm] W L / 8 or / 4 between supports, / 2 or whole past them."""
        return self.mass * GRAVITY * self.span.clear * MOMENT[self.case]

    @property
    def judged_span(self) -> float:
        """Span against which sag is judged: an overhang counts as half a beam. [mm]"""
        return self.span.clear * (2.0 if self.span.overhang else 1.0)

    def sag(self, thickness: float | None = None, span: float | None = None) -> float:
        """Sag at the middle, after years where the load lasts; for another thickness or span. [mm]"""
        beam = self.beam if thickness is None else replace(self.beam, depth=thickness)
        own = beam.modulus * beam.second_moment
        stiffer = replace(beam, modulus=beam.modulus * (1.0 + self.helped / own))
        clear = self.span.clear if span is None else span
        on_it = clear / self.span.clear if self.burden.case is UNIFORM_SIMPLE else 1.0
        return self.creep * deflection(self.case, stiffer, self.mass * on_it * GRAVITY, clear)


def loaded_parts(examined: Examined) -> list[Loaded]:
    """Loads summed by part and by whether they last; then what their rails take from them."""
    totals: dict[tuple[PartName, bool], list[Bearing]] = defaultdict(list)
    for bearing in bearings(examined):
        totals[bearing.part, bearing.lasting].append(bearing)
    found: list[Loaded] = []
    ends: list[Loaded] = []
    for (name, lasting), loads in totals.items():
        part, burden = examined.piece.part(name), _burden(examined, name, lasting, loads)
        found += _spanning(examined, part, burden)
        ends += _overhanging(examined, part, burden)
    return _worst_of_copies([*found, *_rails(examined, found), *ends])


def _burden(examined: Examined, name: PartName, lasting: bool, loads: list[Bearing]) -> Burden:
    own = examined.mass.by_part[name] if lasting else 0.0
    rows = [load.load for load in loads if load.load is not None and len(load.load.on) > 2]
    return Burden(
        mass=own + sum(load.mass for load in loads),
        lasting=lasting,
        case=UNIFORM_SIMPLE if all(load.spread for load in loads) else POINT_SIMPLE,
        words=" and ".join(dict.fromkeys(load.words for load in loads)),
        slats=not lasting and len(rows) == len(loads),
        bed=not lasting and any(spread_of(examined, row) > BED for row in rows),
        whole=max((load.load.amount or 0.0 for load in loads if load.load is not None), default=0.0),
        wood=own,
    )


def _spanning(examined: Examined, part: Part, burden: Burden) -> list[Loaded]:
    """The part as a strip along each axis it is held in; held both ways, each carries by its stiffness."""
    spans = spans_of(examined, part.name)
    supports = {name for span in spans for line in span.between for name in line.parts}
    if not spans or any(span.clear < SHORTEST for span in spans):
        return []
    found = [_on_span(examined, part, span, burden, supports) for span in spans]
    stiffest = min(found, key=lambda loaded: loaded.sag())
    stiffness = [1.0 / loaded.sag() for loaded in found]
    return [replace(stiffest, carried=max(stiffness) / sum(stiffness))]


def _on_span(examined: Examined, part: Part, span: Span, burden: Burden, supports: set[PartName]) -> Loaded:
    spread = burden.case is UNIFORM_SIMPLE
    beam = _beam(examined, part, span.axis, None if spread else PERSON + span.clear / 2)
    creep = creep_factor(panel_of(part)) if burden.lasting else 1.0
    on_it = span.clear / examined.bounds(part.name).size(span.axis) if spread else 1.0
    helped = _help_along(examined, part, span, supports)
    return Loaded(part, span, burden, beam, helped, creep, on_it)


def _overhanging(examined: Examined, part: Part, burden: Burden) -> list[Loaded]:
    """The part's longest reach past its last support, where nothing else carries the end."""
    ends = [span for span in overhangs_of(examined, part.name) if span.clear >= SHORTEST]
    supports = {name for span in ends for line in span.between for name in line.parts}
    return [_on_span(examined, part, span, burden, supports) for span in ends]


def _rails(examined: Examined, loaded: list[Loaded]) -> list[Loaded]:
    """Rails between legs or sides that carry a loaded part's lines of support."""
    found: list[Loaded] = []
    for each in loaded:
        names = [name for line in each.span.between for name in line.parts]
        for name in names if len(names) == 2 else ():
            part = examined.piece.part_by_name.get(name)
            if part is not None and examined.bounds(name).size(Axis.HIGH) < HIGHEST_RAIL:
                mass = _passed_on(each)
                wood = each.burden.wood / each.burden.mass * mass
                passed = replace(each.burden, mass=mass, wood=wood, slats=False)
                found += _spanning(examined, part, passed)
    return found


def _passed_on(loaded: Loaded) -> float:
    """What one of two lines of support takes: half; of a person who may sit over it, all."""
    if loaded.burden.slats:
        return 0.5 * loaded.burden.whole
    return loaded.mass * (0.5 if loaded.burden.lasting else 1.0)


def _worst_of_copies(found: list[Loaded]) -> list[Loaded]:
    """Of copies of one part under like loads, the one that sags most for its span."""
    worst: dict[tuple[str, bool, bool], Loaded] = {}
    for each in found:
        key = (each.part.definition, each.burden.lasting, each.span.overhang)
        if key not in worst or each.sag() / each.span.clear > worst[key].sag() / worst[key].span.clear:
            worst[key] = each
    return list(worst.values())


def _beam(examined: Examined, part: Part, axis: Axis, most: float | None = None) -> Beam:
    """The part as a beam along an axis; at most `most` of its breadth helps under a person."""
    box = examined.bounds(part.name)
    cross = Axis.DEEP if axis == Axis.WIDE else Axis.WIDE
    breadth, depth = min(box.size(cross), most or box.size(cross)), box.size(Axis.HIGH)
    along = grain_axis(part) == axis
    panel, wood = panel_of(part), wood_of(part)
    if panel is not None:
        moduli = bending_moduli(panel, part.thickness)
        return Beam(breadth, depth, moduli[0] if along else moduli[1], panel.shear_modulus)
    assert wood is not None
    modulus = SHEAR_FREE * wood.modulus_of_elasticity if along else modulus_across(wood)
    return Beam(breadth, depth, modulus, shear_modulus_in(wood, depth > breadth))


def _help_along(examined: Examined, part: Part, span: Span, supports: set[PartName]) -> float:
    """Bending stiffness of parts fixed along most of the span that hold the part up no other way. [N mm²]"""
    total = 0.0
    for other, area in meeting_boxes(examined, part.name):
        helper = examined.piece.part(other)
        if other in supports or area.size(span.axis) < 0.7 * span.clear or grain_axis(helper) != span.axis:
            continue
        beam = _beam(examined, helper, span.axis)
        total += beam.modulus * beam.second_moment
    return total
