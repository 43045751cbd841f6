"""Parts begun: blanks cut by the build record, and what each part still wants of the wood."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from scantling.cutting.cut_plan import Blank, GlueUp, Need, Role, Unheeded, Way
from scantling.piece.model import BuildRecord, CutBlank, MaterialKind
from scantling.quantity import LengthUnit

_ROUNDED = 0.9  # mm: a size noted to 1/32 in, off by half a step either way, with a hair to spare
_ROLES = {"": Role.WHOLE, "layer": Role.LAYER, "stave": Role.STAVE, "segment": Role.SEGMENT}


@dataclass(frozen=True)
class Begun:
    """A part some of whose blanks are cut. `rest`: what is still to be cut of it, None for nothing.

    `glue_up`: of blanks that are all cut.
    """

    rest: Need | None
    made: tuple[Blank, ...] = ()
    glue_up: GlueUp | None = None
    unheeded: tuple[Unheeded, ...] = ()


@dataclass(frozen=True, slots=True)
class _Cut:
    """One blank as cut. [mm]"""

    name: str
    role: Role
    number: int
    long: float
    wide: float
    thick: float


def begun(need: Need, cut: Sequence[CutBlank], unit: LengthUnit) -> Begun:
    """A need less the blanks that are cut for it. Where these no longer serve, all of it is wanted again."""
    if not cut:
        return Begun(need)
    known = [_known(blank, need, unit) for blank in cut]
    way = next((way for way in need.ways if all(_serves(blank, need, way) for blank in known)), None)
    if way is None:
        reason = f"what is cut for {need.part} no longer makes it: its sizes have changed since"
        again = "it is planned again from new wood; set the cut blanks aside, or undo the change"
        return Begun(need, unheeded=(Unheeded(need.part, (), reason, again, cut[0].place),))
    rest = _rest(way, known)
    made = tuple(_blank(blank, need, way, _count(way, rest, known)) for blank in known)
    if rest is not None:
        return Begun(replace(need, ways=(rest,)), made)
    ids = tuple(blank.id for blank in made)
    glued = GlueUp(need.part, way.role, ids, way.axis, "its blanks are cut") if len(ids) > 1 else None
    return Begun(None, made, glued)


def strangers(record: BuildRecord, parts: Sequence[str]) -> list[Unheeded]:
    """Blanks the record says were cut for parts the piece does not have."""
    known = frozenset(parts)
    return [
        Unheeded(
            "",
            (used.stock,),
            f"{used.stock} gave a blank for {blank.name}, and the piece has no such part",
            _nearest(blank.name, parts),
            blank.place,
        )
        for used in record.stock
        for blank in used.blanks
        if blank.part not in known and blank.name not in known
    ]


def _nearest(name: str, parts: Sequence[str]) -> str:
    near = get_close_matches(name, parts, 1, 0.6)
    return f"did you mean {near[0]}?" if near else "set the blank aside, or take its line out"


def _known(blank: CutBlank, need: Need, unit: LengthUnit) -> _Cut:
    named = blank.number_for(need.part)
    assert named is not None
    sizes = (blank.long.within(unit), blank.wide.within(unit), blank.thick.within(unit))
    return _Cut(blank.name, _ROLES[named.role], named.number, *sizes)


def _serves(blank: _Cut, need: Need, way: Way) -> bool:
    """Whether a blank as cut is large enough to be milled to what the way asks."""
    if blank.role is not way.role or blank.thick < way.thickness - _ROUNDED:
        return False
    if way.role is Role.LAYER and abs(blank.thick - way.thickness) > _ROUNDED:
        return False  # layers of another number
    wide = way.width if way.role is not Role.STAVE else 0.0
    turned = not need.grain_fixed and _covers(blank.wide, blank.long, way.length, wide)
    return _covers(blank.long, blank.wide, way.length, wide) or turned


def _covers(long: float, wide: float, length: float, width: float) -> bool:
    return long >= length - _ROUNDED and wide >= width - _ROUNDED


def _useful(blank: _Cut, way: Way) -> float:
    """Width a stave adds to its panel, at most: its size is noted rounded down."""
    return blank.wide + _ROUNDED - way.rough_over[1] - way.lap


def _rest(way: Way, cut: Sequence[_Cut]) -> Way | None:
    """What a way still asks for."""
    numbers = tuple(blank.number for blank in cut)
    if way.role is not Role.STAVE:
        count = way.count - len(cut)
        return replace(way, count=count, made=numbers) if count > 0 else None
    wanted = way.width - sum(_useful(blank, way) for blank in cut)
    if wanted <= 0:
        return None
    least, most = (max(1, count - len(cut)) for count in way.counts)
    return replace(way, width=wanted, counts=(least, most), made=numbers)


def _count(way: Way, rest: Way | None, cut: Sequence[_Cut]) -> int:
    if way.role is not Role.STAVE:
        return way.count
    return len(cut) + (rest.counts[0] if rest else 0)


def _blank(cut: _Cut, need: Need, way: Way, count: int) -> Blank:
    width = way.width if way.role is not Role.STAVE else cut.wide - way.rough_over[1]
    return Blank(
        id=cut.name,
        part=need.part,
        role=way.role,
        index=cut.number,
        count=count,
        kind=need.kind,
        species=need.species,
        thickness=way.thickness,
        width=width,
        length=way.length,
        rough_width=cut.wide,
        rough_length=cut.long,
        grain_fixed=need.grain_fixed,
        clear_faces=need.clear_faces,
        label=need.label,
        nominal=need.material if need.kind is MaterialKind.LUMBER else "",
    )
