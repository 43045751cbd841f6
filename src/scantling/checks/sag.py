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

SHORTEST = 150.0  # mm: shorter spans are not looked at


@dataclass(frozen=True, slots=True)
class Loaded:
    """One part on one span under one case of load: lasting or a person."""

    part: Part
    span: Span
    case: BeamCase
    mass: float
    lasting: bool
    words: str
    beam: Beam
    helped: float  # bending stiffness that parts glued along it add [N mm²]
    creep: float

    def sag(self, thickness: float | None = None, span: float | None = None) -> float:
        """Sag at the middle, after years where the load lasts; for another thickness or span. [mm]"""
        beam = self.beam if thickness is None else replace(self.beam, depth=thickness)
        own = beam.modulus * beam.second_moment
        stiffer = replace(beam, modulus=beam.modulus * (1.0 + self.helped / own))
        elastic = deflection(
            self.case, stiffer, self.mass * GRAVITY, self.span.clear if span is None else span
        )
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
    for (name, lasting), parts in totals.items():
        found += _loaded(examined, name, sum(b.mass for b in parts), lasting, parts)
    return _worst_of_copies(found + _rails(examined, found))


def _loaded(
    examined: Examined, name: PartName, mass: float, lasting: bool, loads: list[Bearing]
) -> list[Loaded]:
    part = examined.piece.part(name)
    spread = all(load.spread for load in loads)
    own = examined.mass.by_part[name] if lasting else 0.0
    words = " and ".join(dict.fromkeys(load.words for load in loads))
    return _stiffest(examined, part, mass + own, lasting, UNIFORM_SIMPLE if spread else POINT_SIMPLE, words)


def _stiffest(
    examined: Examined, part: Part, mass: float, lasting: bool, case: BeamCase, words: str
) -> list[Loaded]:
    """The part as a strip along each axis it is held in; the stiffer one carries."""
    found = []
    for span in spans_of(examined, part.name):
        beam = _beam(examined, part, span.axis)
        if beam is not None and span.clear >= SHORTEST:
            share = span.clear / examined.bounds(part.name).size(span.axis) if case is UNIFORM_SIMPLE else 1.0
            creep = creep_factor(panel_of(part)) if lasting else 1.0
            helped = _help_along(examined, part, span)
            found.append(Loaded(part, span, case, mass * share, lasting, words, beam, helped, creep))
        elif span.clear < SHORTEST:
            return []
    return sorted(found, key=lambda loaded: loaded.sag())[:1]


def _rails(examined: Examined, loaded: list[Loaded]) -> list[Loaded]:
    """Rails between legs or sides that carry a loaded part's lines of support."""
    found: list[Loaded] = []
    for each in loaded:
        names = [name for line in each.span.between for name in line.parts]
        for name in names:
            part = examined.piece.part_by_name.get(name)
            alone = part is not None and len(names) == 2
            if part is not None and alone and examined.bounds(name).size(Axis.HIGH) < 300.0:
                case = UNIFORM_SIMPLE if each.case is UNIFORM_SIMPLE else POINT_SIMPLE
                share = each.mass / (2.0 if each.lasting else 1.0)
                found += _stiffest(examined, part, share, each.lasting, case, each.words)
    return found


def _worst_of_copies(found: list[Loaded]) -> list[Loaded]:
    """Of copies of one part under like loads, the one that sags most for its span."""
    worst: dict[tuple[str, bool], Loaded] = {}
    for each in found:
        key = (each.part.definition, each.lasting)
        if key not in worst or each.sag() / each.span.clear > worst[key].sag() / worst[key].span.clear:
            worst[key] = each
    return list(worst.values())


def _beam(examined: Examined, part: Part, axis: Axis) -> Beam | None:
    box = examined.bounds(part.name)
    cross = Axis.DEEP if axis == Axis.WIDE else Axis.WIDE
    breadth, depth = box.size(cross), box.size(Axis.HIGH)
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
        ("sags past the trade's limit", "sag the eye sees") if loaded.lasting else ("springs under a person",)
    )
    for code in codes:
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
    when = "after years" if loaded.lasting else "while it is there"
    return (
        f"{loaded.part.name}: {examined.weight(loaded.mass)} of {loaded.words} over a span of "
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
    share = 8.0 if loaded.case is UNIFORM_SIMPLE else 4.0
    moment = loaded.mass * GRAVITY * loaded.span.clear / share
    stress = bending_stress(moment, loaded.beam.breadth, loaded.beam.depth)
    allowed = planning_stress(wood.modulus_of_rupture, loaded.lasting)
    if stress > allowed:
        thick = examined.step_up(loaded.beam.depth * (stress / allowed) ** 0.5)
        yield rule("overstressed").found(
            f"{loaded.part.name}: {examined.weight(loaded.mass)} of {loaded.words} over "
            f"{examined.length(loaded.span.clear)} bends it to {stress:.0f} MPa; "
            f"{wood.name} is planned with {allowed:.0f} MPa",
            (loaded.part.name,),
            stress,
            limit=allowed,
            mend=Mend(f"make it {examined.length(thick)} thick"),
            place=loaded.part.place,
        )


def _assumptions(examined: Examined) -> Iterator[Finding]:
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
