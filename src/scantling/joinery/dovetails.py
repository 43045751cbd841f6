"""Dovetails, half-blind dovetails, finger joint and sliding dovetail."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery import rules
from scantling.joinery.bench import Bench
from scantling.joinery.corners import Corner, corner_of, not_a_corner
from scantling.joinery.features import Addition, Feature, Prism, Shaped
from scantling.joinery.made import Made, counted, layout, notice
from scantling.joinery.meeting import Meeting
from scantling.piece.model import Notice, Vec3

_WIDEST_FINGER = 12.7  # mm, 1/2 in: common practice, no source
_LEAST_NECK = 3.0  # mm: a tail narrower at its root is too weak to cut


@dataclass(frozen=True, slots=True)
class Tails:
    """`deep`: length of the tails; `pitch` from tail to tail; `pin`: a pin's narrow side; `flare` of one
    flank over the depth. [mm]
    """

    count: int
    pitch: float
    pin: float
    deep: float
    flare: float

    @property
    def neck(self) -> float:
        return self.pitch - self.pin - 2 * self.flare


def dovetails(m: Meeting, bench: Bench) -> Made:
    """Through dovetails; the first part carries the tails unless the joint line says otherwise."""
    corner = corner_of(m)
    on_second = m.second is not None and m.settings.tails_on == m.second.name
    deep = corner.first_thick if on_second else corner.second_thick
    tails = _tails(m, bench, corner.second_thick if on_second else corner.first_thick, deep)
    first, second = _pins_on_first(corner, tails) if on_second else _tails_on_first(corner, tails)
    return _made(m, bench, corner, tails, first, second, corner.second_thick)


def half_blind_dovetails(m: Meeting, bench: Bench) -> Made:
    """Tails on the first part stop short of the second's far face, so that its front shows no joint."""
    corner = corner_of(m)
    share = rules.number("half-blind lap over thickness")
    lap = max(rules.number("half-blind least lap"), share * corner.second_thick)
    deep = m.settings.deep or bench.rounded(corner.second_thick - lap)
    tails = _tails(m, bench, corner.first_thick, deep)
    first, second = _tails_on_first(corner, tails)
    return _made(m, bench, corner, tails, first, second, deep)


def _tails(m: Meeting, bench: Bench, thick: float, deep: float) -> Tails:
    wish = max(rules.number("dovetail least pitch"), rules.number("dovetail pitch over thickness") * thick)
    count = m.settings.count or max(1, round(m.length / wish))
    pitch = m.length / count
    pin = max(rules.number("dovetail least pin"), rules.number("dovetail pin over pitch") * pitch)
    slope = "dovetail slope softwood" if bench.is_soft(m.first) else "dovetail slope hardwood"
    return Tails(count, pitch, pin, deep, deep / rules.number(slope))


def _tails_on_first(corner: Corner, tails: Tails) -> tuple[tuple[Feature, ...], tuple[Feature, ...]]:
    """Tails widen away from the first part; half pins stand at both edges."""
    m = corner.meeting
    prisms = []
    for i in range(tails.count):
        centre = m.low + (i + 0.5) * tails.pitch
        tip, neck = (tails.pitch - tails.pin) / 2, tails.neck / 2
        points = [
            m.at(centre - neck, 0, 0),
            m.at(centre - tip, 0, tails.deep),
            m.at(centre + tip, 0, tails.deep),
            m.at(centre + neck, 0, 0),
        ]
        prisms.append(m.prism(m.across, (corner.inside, corner.outside), points))
    return _added_and_taken(m, prisms, "tail", "tail gap")


def _pins_on_first(corner: Corner, tails: Tails) -> tuple[tuple[Feature, ...], tuple[Feature, ...]]:
    """The second part's tails widen toward its end; the first part's pins fill the gaps."""
    m = corner.meeting
    prisms = [
        m.prism(m.face.axis, (m.plane, m.plane + m.face.sign * corner.second_thick), _pin(corner, tails, i))
        for i in range(tails.count + 1)
    ]
    return _added_and_taken(m, prisms, "pin", "pin gap")


def _pin(corner: Corner, tails: Tails, i: int) -> list[Vec3]:
    """Pin `i`, narrow on the outside; the first and the last are half pins."""
    m = corner.meeting
    centre = m.low + i * tails.pitch
    narrow, broad = tails.pin / 2, tails.pin / 2 + tails.flare
    low, high = (0.0 if i == 0 else 1.0), (0.0 if i == tails.count else 1.0)
    return [
        m.at(centre - low * broad, corner.inside),
        m.at(centre - low * narrow, corner.outside),
        m.at(centre + high * narrow, corner.outside),
        m.at(centre + high * broad, corner.inside),
    ]


def _added_and_taken(
    m: Meeting, prisms: list[Prism], added: str, taken: str
) -> tuple[tuple[Shaped, ...], tuple[Shaped, ...]]:
    return (
        tuple(m.first_shaped(prism, added, adds=True) for prism in prisms),
        tuple(m.second_shaped(prism, taken) for prism in prisms),
    )


def _made(
    m: Meeting,
    bench: Bench,
    corner: Corner,
    tails: Tails,
    first: tuple[Feature, ...],
    second: tuple[Feature, ...],
    longer: float,
) -> Made:
    slope = "1 in 6" if bench.is_soft(m.first) else "1 in 8"
    wide = tails.pitch - tails.pin
    words = (
        f"{counted(tails.count, 'tail')} {bench.said(wide)} wide, {bench.said(tails.deep)} long,"
        f" slope {slope}; pins {bench.said(tails.pin)} at the narrow side, half pins at both edges"
    )
    numbers = (
        ("count", float(tails.count)),
        ("pitch", tails.pitch),
        ("tail", wide),
        ("pin", tails.pin),
        ("deep", tails.deep),
        ("longer by", longer),
    )
    glued = 2 * tails.count * tails.deep * corner.first_thick
    made = layout(m, words, numbers, glued=glued, source=rules.source("dovetail slope hardwood"))
    return Made(first, second, made, (), (*not_a_corner(corner, bench), *_narrow(m, bench, tails)))


def _narrow(m: Meeting, bench: Bench, tails: Tails) -> tuple[Notice, ...]:
    if tails.neck >= _LEAST_NECK:
        return ()
    message = f"{counted(tails.count, 'tail')} leave {bench.said(max(0.0, tails.neck))} at their roots"
    return (
        notice(m, "tails too narrow", message, number=tails.neck, remedy="write a smaller count", must=True),
    )


def finger_joint(m: Meeting, bench: Bench) -> Made:
    """An odd number of equal fingers; the first part has the outer ones."""
    corner = corner_of(m)
    usual = max(rules.number("finger least"), min(corner.first_thick, _WIDEST_FINGER))
    count = m.settings.count or max(3, round(m.length / (m.settings.size[0] if m.settings.size else usual)))
    count += 1 - count % 2
    wide = m.length / count
    across, depth = (corner.inside, corner.outside), (0.0, corner.second_thick)
    blocks = [m.block((m.low + i * wide, m.low + (i + 1) * wide), across, depth) for i in range(0, count, 2)]
    first = tuple(Addition(block, m.face, "finger", m.joint.id) for block in blocks)
    second = tuple(m.second_cut(block, "finger gap") for block in blocks)
    words = f"{count} fingers {bench.said(wide)} wide; {m.first.name} has the outer ones"
    numbers = (("count", float(count)), ("wide", wide), ("longer by", corner.second_thick))
    glued = (count - 1) * corner.first_thick * corner.second_thick
    made = layout(m, words, numbers, glued=glued, source=rules.source("finger least"))
    return Made(first, second, made, (), not_a_corner(corner, bench))


def sliding_dovetail(m: Meeting, bench: Bench) -> Made:
    """A tail along the whole edge of the first part, slid into a socket of the second."""
    wish = m.second_room * rules.number("sliding dovetail over thickness")
    deep = m.settings.deep or bench.rounded(wish)
    neck = m.thin * rules.number("sliding dovetail neck")
    slope = rules.number("dovetail slope softwood" if bench.is_soft(m.first) else "dovetail slope hardwood")
    tip = min(m.thin, neck + 2 * deep / slope)
    points = [
        m.at(0, m.middle - neck / 2, 0),
        m.at(0, m.middle - tip / 2, deep),
        m.at(0, m.middle + tip / 2, deep),
        m.at(0, m.middle + neck / 2, 0),
    ]
    prism = m.prism(m.run, m.along, points)
    words = f"sliding dovetail {bench.said(neck)} to {bench.said(tip)} wide, {bench.said(deep)} deep"
    numbers = (("deep", deep), ("neck", neck), ("tip", tip), ("longer by", deep))
    made = layout(m, words, numbers, glued=2 * deep * m.length, source=rules.source("sliding dovetail neck"))
    first = m.first_shaped(prism, "tail", adds=True)
    return Made((first,), (m.second_shaped(prism, "socket"),), made, (), _socket_notices(m, bench, deep))


def _socket_notices(m: Meeting, bench: Bench, deep: float) -> tuple[Notice, ...]:
    left = m.second_room - deep
    if left >= 3.0:
        return ()
    message = f"the socket is {bench.said(deep)} deep in a part {bench.said(m.second_room)} thick"
    return (notice(m, "cut too deep", message, number=deep, remedy="write a smaller deep", must=True),)
