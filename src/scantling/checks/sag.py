"""Do shelves, tops and rails bend too far, today and after years?

Beams with shear (Wood Handbook Eq. 9-2, Table 9-1) on the spans found from joints and contacts;
lasting loads grow by creep. Mends are found by solving for the thickness, the span or the load.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from scantling.checks.examined import GRAVITY, Examined, grain_axis, panel_of, wood_of
from scantling.checks.finding import Finding, Mend
from scantling.checks.loads import Bearing, bearings, contents_named
from scantling.checks.rules import rule
from scantling.checks.supports import Span, meeting_boxes, spans_of
from scantling.piece.model import Axis, Part, PartName
from scantling.wood import (
    POINT_SIMPLE,
    SHEAR_FREE,
    UNIFORM_SIMPLE,
    Beam,
    BeamCase,
    bending_moduli,
    bending_stress,
    creep_factor,
    deflection,
    modulus_across,
    planning_stress,
    shear_modulus_in,
)

PERSON = 350.0  # mm: how broad a person sits; judgement
HIGHEST_RAIL = 300.0  # mm: deeper parts are sides, not rails
SHORTEST = 150.0  # mm: shorter spans are not looked at


@dataclass(frozen=True, slots=True)
class Burden:
    """What lies on a part: kg, for years or for a while, spread or at the middle."""

    mass: float
    lasting: bool
    case: BeamCase
    words: str
    slats: bool = False  # shared by several slats, which are meant to give


@dataclass(frozen=True, slots=True)
class Loaded:
    """One part spanning one way under a burden; `share` of it is carried this way."""

    part: Part
    span: Span
    burden: Burden
    beam: Beam
    helped: float  # bending stiffness that parts fixed along it add [N mm²]
    creep: float
    share: float = 1.0

    @property
    def mass(self) -> float:
        """What lies on this span. [kg]"""
        return self.burden.mass * self.share

    def sag(self, thickness: float | None = None, span: float | None = None) -> float:
        """Sag at the middle, after years where the load lasts; for another thickness or span. [mm]"""
        beam = self.beam if thickness is None else replace(self.beam, depth=thickness)
        own = beam.modulus * beam.second_moment
        stiffer = replace(beam, modulus=beam.modulus * (1.0 + self.helped / own))
        clear = self.span.clear if span is None else span
        elastic = deflection(self.burden.case, stiffer, self.mass * GRAVITY, clear)
        return elastic * self.creep


def sag(examined: Examined) -> Iterator[Finding]:
    """Findings on every part that carries a load over a span, and on the rails that carry it on."""
    for loaded in _loaded_parts(examined):
        yield from _sag_finding(examined, loaded)
        yield from _stress_finding(examined, loaded)
    yield from _assumptions(examined)


def _loaded_parts(examined: Examined) -> list[Loaded]:
    """Loads summed by part and by whether they last; then what their rails take from them."""
    totals: dict[tuple[PartName, bool], list[Bearing]] = defaultdict(list)
    for bearing in bearings(examined):
        totals[bearing.part, bearing.lasting].append(bearing)
    found: list[Loaded] = []
    for (name, lasting), loads in totals.items():
        found += _spanning(examined, examined.piece.part(name), _burden(examined, name, lasting, loads))
    return _worst_of_copies(found + _rails(examined, found))


def _burden(examined: Examined, name: PartName, lasting: bool, loads: list[Bearing]) -> Burden:
    own = examined.mass.by_part[name] if lasting else 0.0
    return Burden(
        mass=own + sum(load.mass for load in loads),
        lasting=lasting,
        case=UNIFORM_SIMPLE if all(load.spread for load in loads) else POINT_SIMPLE,
        words=" and ".join(dict.fromkeys(load.words for load in loads)),
        slats=not lasting and all(load.load is not None and len(load.load.on) > 2 for load in loads),
    )


def _spanning(examined: Examined, part: Part, burden: Burden) -> list[Loaded]:
    """The part as a strip along each axis it is held in; held both ways, each carries by its stiffness."""
    spread = burden.case is UNIFORM_SIMPLE
    found: list[Loaded] = []
    for span in spans_of(examined, part.name):
        if span.clear < SHORTEST:
            return []
        beam = _beam(examined, part, span.axis, None if spread else PERSON + span.clear / 2)
        if beam is not None:
            creep = creep_factor(panel_of(part)) if burden.lasting else 1.0
            on_it = span.clear / examined.bounds(part.name).size(span.axis) if spread else 1.0
            found.append(Loaded(part, span, burden, beam, _help_along(examined, part, span), creep, on_it))
    if not found:
        return []
    stiffest = min(found, key=lambda loaded: loaded.sag())
    stiffness = [1.0 / loaded.sag() for loaded in found]
    return [replace(stiffest, share=stiffest.share * max(stiffness) / sum(stiffness))]


def _rails(examined: Examined, loaded: list[Loaded]) -> list[Loaded]:
    """Rails between legs or sides that carry a loaded part's lines of support."""
    found: list[Loaded] = []
    for each in loaded:
        names = [name for line in each.span.between for name in line.parts]
        for name in names if len(names) == 2 else ():
            part = examined.piece.part_by_name.get(name)
            if part is not None and examined.bounds(name).size(Axis.HIGH) < HIGHEST_RAIL:
                half = 0.5 if each.burden.lasting else 1.0
                found += _spanning(examined, part, replace(each.burden, mass=each.mass * half))
    return found


def _worst_of_copies(found: list[Loaded]) -> list[Loaded]:
    """Of copies of one part under like loads, the one that sags most for its span."""
    worst: dict[tuple[str, bool], Loaded] = {}
    for each in found:
        key = (each.part.definition, each.burden.lasting)
        if key not in worst or each.sag() / each.span.clear > worst[key].sag() / worst[key].span.clear:
            worst[key] = each
    return list(worst.values())


def _beam(examined: Examined, part: Part, axis: Axis, most: float | None = None) -> Beam | None:
    """The part as a beam along an axis; at most `most` of its breadth helps under a person."""
    box = examined.bounds(part.name)
    cross = Axis.DEEP if axis == Axis.WIDE else Axis.WIDE
    breadth, depth = min(box.size(cross), most or box.size(cross)), box.size(Axis.HIGH)
    along = grain_axis(part) == axis
    panel, wood = panel_of(part), wood_of(part)
    if panel is not None:
        moduli = bending_moduli(panel, part.thickness)
        return Beam(breadth, depth, moduli[0] if along else moduli[1], panel.shear_modulus)
    if wood is None:
        return None
    modulus = SHEAR_FREE * wood.modulus_of_elasticity if along else modulus_across(wood)
    return Beam(breadth, depth, modulus, shear_modulus_in(wood, depth > breadth))


def _help_along(examined: Examined, part: Part, span: Span) -> float:
    """Bending stiffness of parts fixed along most of the span that are not its supports. [N mm²]"""
    supports = {name for line in span.between for name in line.parts}
    total = 0.0
    for other, area in meeting_boxes(examined, part.name):
        helper = examined.piece.part(other)
        if other in supports or area.size(span.axis) < 0.7 * span.clear or grain_axis(helper) != span.axis:
            continue
        beam = _beam(examined, helper, span.axis)
        total += beam.modulus * beam.second_moment if beam else 0.0
    return total


def _sag_finding(examined: Examined, loaded: Loaded) -> Iterator[Finding]:
    sag_now = loaded.sag()
    ratio = loaded.span.clear / sag_now if sag_now > 0 else float("inf")
    codes = (
        ("sags past the trade's limit", "sag the eye sees")
        if loaded.burden.lasting
        else ("springs under a person",)
    )
    for code in codes if loaded.burden.lasting or not loaded.burden.slats else ():
        limit = rule(code).allowed
        if ratio < limit:
            yield rule(code).found(
                _sag_words(examined, loaded, sag_now, limit),
                (loaded.part.name,),
                ratio,
                mend=_sag_mend(examined, loaded, limit),
                place=loaded.part.place,
            )
            return


def _sag_words(examined: Examined, loaded: Loaded, sag_now: float, limit: float) -> str:
    when = "after years" if loaded.burden.lasting else "while it is there"
    return (
        f"{loaded.part.name}: {examined.weight(loaded.mass)} of {loaded.burden.words} over a span of "
        f"{examined.length(loaded.span.clear)} sags it {examined.small(sag_now)} {when}; "
        f"{examined.small(loaded.span.clear / limit)} is the limit"
    )


def _sag_mend(examined: Examined, loaded: Loaded, limit: float) -> Mend:
    """Thicker, shorter or lighter: each solved so that it just passes."""
    clear, now = loaded.span.clear, loaded.beam.depth
    thick = solve_least(lambda t: loaded.sag(thickness=t) <= clear / limit, now, now * 4)
    short = solve_most(lambda s: loaded.sag(span=s) <= s / limit, clear / 8, clear)
    lighter = loaded.mass * clear / limit / loaded.sag()
    thicker = examined.length(examined.step_up(thick))
    upward = "deep" if now > loaded.beam.breadth else "thick"
    return Mend(
        f"make it {thicker} {upward}, or support it every {examined.length(short)}, "
        f"or load it with no more than {examined.weight(lighter)}"
    )


def _stress_finding(examined: Examined, loaded: Loaded) -> Iterator[Finding]:
    wood = wood_of(loaded.part)
    if wood is None or grain_axis(loaded.part) != loaded.span.axis:
        return
    share = 8.0 if loaded.burden.case is UNIFORM_SIMPLE else 4.0
    moment = loaded.mass * GRAVITY * loaded.span.clear / share
    stress = bending_stress(moment, loaded.beam.breadth, loaded.beam.depth)
    allowed = planning_stress(wood.modulus_of_rupture, loaded.burden.lasting)
    if stress > allowed:
        thick = examined.step_up(loaded.beam.depth * (stress / allowed) ** 0.5)
        yield rule("overstressed").found(
            f"{loaded.part.name}: {examined.weight(loaded.mass)} of {loaded.burden.words} over "
            f"{examined.length(loaded.span.clear)} bends it to {stress:.0f} MPa; "
            f"{wood.name} is planned with {allowed:.0f} MPa",
            (loaded.part.name,),
            stress,
            limit=allowed,
            mend=Mend(f"make it {examined.length(thick)} thick"),
            place=loaded.part.place,
        )


def _assumptions(examined: Examined) -> Iterator[Finding]:
    if not examined.piece.loads and not examined.piece.holds:
        yield rule("no loads written").found(
            "nothing says what it must bear: sag, joints and tipping are looked at for its own weight alone",
            mend=Mend("write `loads: [{fill: shelf, with: books}]`, `{sit: 300 lb, on: seat}` or the like"),
        )
    words = {load.contents for load in examined.piece.loads if load.kind == "fill" and load.amount is None}
    for word in sorted(w for w in words if w):
        contents = contents_named(word)
        unit = {"metre": "kg a metre run", "volume": "kg/m³", "area": "kg/m²"}[contents.basis]
        yield rule("contents assumed").found(
            f"{word} is taken as {contents.amount:g} {unit} ({contents.source})", number=contents.amount
        )


def solve_least(passes: Callable[[float], bool], low: float, high: float) -> float:
    """The least value between low and high that passes, where more is better; `high` if none does."""
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (low, middle) if passes(middle) else (middle, high)
    return high


def solve_most(passes: Callable[[float], bool], low: float, high: float) -> float:
    """The greatest value between low and high that passes, where less is better; `low` if none does."""
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (middle, high) if passes(middle) else (low, middle)
    return low
