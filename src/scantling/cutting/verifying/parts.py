"""Do the blanks make the parts: each there once, large enough, of the right stuff, glued up to size?"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

from scantling.cutting import allowances as allow
from scantling.cutting.cut_plan import Blank, CutPlan, Role, StockLayout
from scantling.cutting.verifying.stock import in_shop
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece.model import Axis, BuildKind, MaterialKind
from scantling.shop.model import Board, BoardForSale, Lumber, Sheet, Shop
from scantling.wood import is_species_name, species_named

_TOL = 0.06  # mm


def parts_complaints(plan: CutPlan, machined: MachinedPiece) -> Iterator[str]:
    """Everything wrong between the parts asked for and the blanks planned."""
    by_part: dict[str, list[Blank]] = {}
    for blank in (*plan.blanks, *plan.made):
        by_part.setdefault(blank.part, []).append(blank)
    lacking = {u.blank.part for u in plan.unmet}
    for made in machined.parts:
        if made.part.fixed or made.name in lacking:
            continue
        if made.name not in by_part:
            yield f"nothing is planned for {made.name}"
            continue
        yield from (f"{made.name}: {c}" for c in _made_up(made, by_part[made.name], plan))
    known = {made.name for made in machined.parts}
    yield from (f"{name} is no part of the piece" for name in by_part if name not in known)


def placing_complaints(plan: CutPlan, machined: MachinedPiece, shop: Shop) -> Iterator[str]:
    """Every blank is laid exactly once, on stock of its kind, and large enough."""
    blanks = {blank.id: blank for blank in plan.blanks}
    if len(blanks) != len(plan.blanks):
        yield "two blanks have one name"
    laid = Counter(placed.blank for layout in plan.layouts for placed in layout.placed)
    yield from (f"{name} is laid {laid[name]} times" for name in blanks if laid[name] != 1)
    for layout in plan.layouts:
        shown = sorted((p.blank, p.x, p.y, p.length, p.width) for p in layout.pieces if p.use == "blank")
        if shown != sorted((p.blank, p.x, p.y, p.length, p.width) for p in layout.placed):
            yield f"{layout.stock}: the blanks laid are not the blanks cut"
        for placed in layout.placed:
            blank = blanks.get(placed.blank)
            if blank is None:
                yield f"{layout.stock}: {placed.blank} is no blank of the plan"
                continue
            yield from _large_enough(blank, placed.length, placed.width)
            text = machined.by_name[blank.part].part.material.text if blank.part in machined.by_name else ""
            yield from (f"{blank.id} on {layout.stock}: {c}" for c in _right_stuff(blank, text, layout, shop))


def _large_enough(blank: Blank, along: float, across: float) -> Iterator[str]:
    fits = along >= blank.rough_length - _TOL and across >= blank.rough_width - _TOL
    turned = across >= blank.rough_length - _TOL and along >= blank.rough_width - _TOL
    if not (fits or (turned and not blank.grain_fixed)):
        yield f"{blank.id} is cut {along:.1f} x {across:.1f}, too small for its blank or across the grain"
    over = (blank.rough_length - blank.length, blank.rough_width - blank.width)
    least = (allow.LENGTH_SHORT, allow.RIP_WIDTH) if blank.kind is MaterialKind.SOLID else (0.0, 0.0)
    if over[0] < least[0] - _TOL or over[1] < least[1] - _TOL:
        yield f"{blank.id} has too little to mill away"


def _right_stuff(blank: Blank, text: str, layout: StockLayout, shop: Shop) -> Iterator[str]:
    if layout.kind is not blank.kind:
        yield f"it is {layout.kind.value}, the blank {blank.kind.value}"
    match in_shop(layout, shop):
        case Board(species=wood) | BoardForSale(species=wood):
            if _wood(wood) != _wood(blank.species):
                yield f"it is {wood}, not {blank.species}"
        case Sheet() as sheet:
            if not text.lower().startswith(sheet.name.lower()):
                yield f"it is {sheet.name}, not {text}"
            label = blank.thickness if blank.label is None else blank.label
            if min(abs(sheet.label - label), abs(sheet.thickness - label)) > 0.5:
                yield f"it is marked {sheet.label:g}, not {label:g}"
        case Lumber() as stick:
            if not blank.nominal.endswith(stick.nominal.lower()):
                yield f"it is {stick.nominal}, not {blank.nominal}"
            if stick.thickness < blank.thickness - _TOL:
                yield "it is too thin"
        case None:
            return


def _wood(words: str) -> str:
    return species_named(words).name if is_species_name(words) else words.lower()


def _made_up(made: MachinedPart, blanks: list[Blank], plan: CutPlan) -> Iterator[str]:
    if {blank.species for blank in blanks} != {made.part.material.species}:
        yield "its blanks are of another wood"
    roles = {blank.role for blank in blanks}
    if len(roles) != 1:
        yield "its blanks are of different roles"
        return
    glue = next((g for g in plan.glue_ups if g.part == made.name), None)
    if len(blanks) > 1 and (glue is None or sorted(glue.blanks) != sorted(b.id for b in blanks)):
        yield "its blanks are not glued up"
    if roles == {Role.SEGMENT}:
        yield from _round_enough(made, blanks)
        return
    yield from _long_enough(made, blanks)
    thick, wide = _glued_section(roles.pop(), blanks)
    box = made.core_box or made.cut_box
    want = sorted(box.size(axis) for axis in Axis if axis is not made.part.grain)
    if made.part.material.kind is MaterialKind.SHEET:
        want = sorted(box.sizes)[:2]  # thickness, and the lesser of the other two
        have = sorted((thick, wide, blanks[0].length))[:2]
    else:
        have = sorted((thick, wide))
    if any(h < w - _TOL for h, w in zip(have, want, strict=True)):
        yield f"{have[0]:.1f} x {have[1]:.1f} is too small for {want[0]:.1f} x {want[1]:.1f}"


def _glued_section(role: Role, blanks: list[Blank]) -> tuple[float, float]:
    if role is Role.LAYER:
        return sum(b.thickness for b in blanks), min(b.width for b in blanks)
    if role is Role.STAVE:
        return min(b.thickness for b in blanks), sum(b.width for b in blanks)
    return blanks[0].thickness, blanks[0].width


def _long_enough(made: MachinedPart, blanks: list[Blank]) -> Iterator[str]:
    part, box = made.part, made.core_box or made.cut_box
    length = box.size(part.grain)
    if part.shape.lean is not None and part.grain is Axis.HIGH:  # similar triangles: as its shown part leans
        length *= math.hypot(part.length, *part.shape.lean.shift) / part.length
    if part.material.kind is MaterialKind.SHEET and length == min(box.sizes):
        length = max(box.sizes)
    if min(b.length for b in blanks) < length - _TOL:
        yield f"its blanks are shorter than {length:.1f}"


def _round_enough(made: MachinedPart, blanks: list[Blank]) -> Iterator[str]:
    """Segments must close the ring: n of them, each as wide (or long) as its share of the round."""
    part, built = made.part, made.part.built
    if built is None:
        yield "it has segments but is not built of them"
        return
    across = max(s for s in part.box.sizes)
    if built.kind is BuildKind.COOPERED:
        across = max(part.box.size(a) for a in Axis if a is not part.grain)
        if sum(b.width for b in blanks) < math.pi * across - _TOL:
            yield "its staves do not close the round"
        return
    courses = built.courses or 1
    a_course = len(blanks) / courses
    if (
        a_course * min(b.length for b in blanks)
        < math.pi * across * math.sin(math.pi / a_course) / (math.pi / a_course) - _TOL
    ):
        yield "its bricks do not close the ring"
    if courses * min(b.thickness for b in blanks) < min(part.box.sizes) - _TOL:
        yield "its courses are not high enough"
