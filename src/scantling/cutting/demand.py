"""What is asked of the wood: every part, and the ways it may be made of blanks.

Knows parts, glue-ups and trade allowances; knows nothing of boards.
"""

from __future__ import annotations

import math

from scantling.cutting import allowances as allow
from scantling.cutting.begun import begun, strangers
from scantling.cutting.cut_plan import Demand, Need, Role, Way
from scantling.cutting.milling import Means, means_of
from scantling.cutting.wishes import wished
from scantling.joinery.features import MachinedPart, MachinedPiece
from scantling.piece.model import Axis, Box, BuildKind, Built, Face, MaterialKind, OutlineKind, Part, face_of
from scantling.shop.model import Shop
from scantling.wood import is_panel_name, panel_named

_MOST_LAYERS = 6
_MOST_STAVES = 24


def demand_of(machined: MachinedPiece, shop: Shop) -> Demand:
    """Parts with the ways each may be made, best liked first, as the build record wishes it.

    Parts already cut are left out, and so are blanks that are cut for parts not yet finished.
    """
    means = means_of(shop.machines)
    parts = [m for m in machined.parts if not m.part.fixed]
    cut = len(machined.parts) - len(parts)
    notes = (f"{cut} parts are already cut and are not planned again",) if cut else ()
    record, unit = machined.piece.record, machined.piece.unit
    wishes = [wished(_need(m, means), record.of(m.name)) for m in parts]
    started = [begun(need, record.standing(need.part, need.again), unit) for need, _ in wishes]
    return Demand(
        tuple(each.rest for each in started if each.rest is not None),
        notes,
        tuple(blank for each in started for blank in each.made),
        tuple(each.glue_up for each in started if each.glue_up is not None),
        (
            *(unheeded for _, said in wishes for unheeded in said),
            *(unheeded for each in started for unheeded in each.unheeded),
            *strangers(record, [m.name for m in machined.parts]),
        ),
    )


def _need(machined: MachinedPart, means: Means) -> Need:
    part, material = machined.part, machined.part.material
    box = machined.core_box or machined.cut_box
    ways: tuple[Way, ...]
    if material.kind is MaterialKind.SHEET:
        ways = (_sheet_way(part, box),)
    elif material.kind is MaterialKind.LUMBER:
        ways = (_stick_way(part, box),)
    else:
        ways = _solid_ways(part, box, means)
    return Need(
        part=part.name,
        definition=part.definition,
        kind=material.kind,
        species=material.species,
        material=material.text.lower(),
        grain_fixed=material.kind is not MaterialKind.SHEET or not _has_no_grain(material.species),
        clear_faces=_clear_faces(part),
        ways=ways,
        label=material.label,
    )


def _has_no_grain(panel: str) -> bool:
    return is_panel_name(panel) and not panel_named(panel).layered


def _clear_faces(part: Part) -> int:
    """How many broad faces are seen; both, unless the maker says which."""
    if part.show is None:
        return 2
    return sum(face_of(part.thickness_axis, sign) in part.show for sign in (-1, 1))


def _sheet_way(part: Part, box: Box) -> Way:
    """Cut to size as it comes; where the part is thicker than its sheet, of as many layers as that takes."""
    thick = min(Axis, key=lambda a: (round(box.size(a), 3), a))
    if thick == part.grain:
        along, across = sorted((a for a in Axis if a != thick), key=lambda a: -box.size(a))
    else:
        along, across = part.grain, next(a for a in Axis if a not in (thick, part.grain))
    total = box.size(thick)
    layers = max(1, round(total / (part.material.thick or total)))
    role = Role.LAYER if layers > 1 else Role.WHOLE
    axis = thick.word if layers > 1 else ""
    return Way(role, layers, total / layers, box.size(across), box.size(along), (0.0, 0.0), axis)


def _stick_way(part: Part, box: Box) -> Way:
    along, across, thick = _axes(part)
    return Way(Role.WHOLE, 1, box.size(thick), box.size(across), _length(part, box, along), (0.0, 0.0))


def _axes(part: Part) -> tuple[Axis, Axis, Axis]:
    """Along the grain, across it, and through the thickness (the stacking axis where the maker names one)."""
    thick, across = part.thickness_axis, part.width_axis
    if part.built and part.built.stacked is not None and part.built.stacked == across:
        thick, across = across, thick
    return part.grain, across, thick


def _length(part: Part, box: Box, along: Axis) -> float:
    """Length of stick wanted: true length of a leaning one, its slanting ends included. [mm]"""
    lean = part.shape.lean
    if lean is None or along is not Axis.HIGH:
        return box.size(along)
    sides = zip((Axis.WIDE, Axis.DEEP), lean.shift, strict=True)
    ends = sum(box.size(axis) * abs(shift) / part.length for axis, shift in sides)
    return box.size(along) * part.true_ratio + ends


def _solid_ways(part: Part, box: Box, means: Means) -> tuple[Way, ...]:
    built = part.built
    if built is not None and built.kind is BuildKind.COOPERED:
        return (_coopered(part, box, built, means),)
    if built is not None and built.kind is BuildKind.BRICKS:
        return (_bricks(part, box, built, means),)
    if built is not None and built.kind is BuildKind.BENT:
        return (_layers(part, box, max(built.least, 1), means),)
    kinds = {built.kind} if built is not None else _usual_kinds(part)
    ways: list[Way] = []
    if BuildKind.ONE_PIECE in kinds or (built is not None and built.least <= 1):
        ways.append(_whole(part, box, means))
    if BuildKind.STAVES in kinds:
        ways += _staves(part, box, built, means)
    if BuildKind.LAYERS in kinds:
        least = max(built.least, 2) if built else 2
        most = (built.most or least) if built else _MOST_LAYERS
        ways += [_layers(part, box, count, means) for count in range(least, most + 1)]
    return tuple(ways)


def _usual_kinds(part: Part) -> set[BuildKind]:
    """What a maker would think of: staves for what is wide, layers for what is thick."""
    kinds = {BuildKind.ONE_PIECE}
    if part.width > allow.STAVED_FROM:
        kinds.add(BuildKind.STAVES)
    if part.thickness > allow.LAYERED_FROM:
        kinds.add(BuildKind.LAYERS)
    return kinds


def _rough_over(length: float, width: float, means: Means) -> tuple[float, float]:
    """What a blank is cut longer and wider; a short one is planed in a gang, which takes the snipe."""
    if length + allow.LENGTH_SHORT < means.least_length:
        return (allow.LENGTH_SHORT, width)
    over = allow.LENGTH_SHORT if length <= allow.SHORT_PART else allow.LENGTH
    return (max(over, 2 * means.snipe), width)


def _whole(part: Part, box: Box, means: Means) -> Way:
    along, across, thick = _axes(part)
    length = _length(part, box, along)
    return Way(
        Role.WHOLE,
        1,
        box.size(thick),
        box.size(across),
        length,
        _rough_over(length, allow.RIP_WIDTH, means),
    )


def _staves(part: Part, box: Box, built: Built | None, means: Means) -> list[Way]:
    along, across, thick = _axes(part)
    width, length = box.size(across), _length(part, box, along)
    lap = allow.TONGUE if built and built.edges != "glue" else 0.0
    total = width + allow.PANEL_WIDTH
    least, most = allow.STAVE_LEAST, min(allow.STAVE_MOST, means.widest - allow.RIP_WIDTH)
    counts = (max(2, math.ceil(total / most)) if most > 0 else 2, min(_MOST_STAVES, int(total // least)))
    if built:
        counts = (max(2, built.least), built.most or max(built.least, 2))
        least, most = min(least, total / counts[1]), max(most, total / counts[0] + lap)
    if counts[0] > counts[1]:
        return []
    return [
        Way(
            Role.STAVE,
            0,
            box.size(thick),
            total,
            length,
            (max(allow.PANEL_LENGTH, 2 * means.snipe), allow.RIP_WIDTH),
            across.word,
            (least, most),
            counts,
            lap,
        )
    ]


def _layers(part: Part, box: Box, count: int, means: Means) -> Way:
    along, across, thick = _axes(part)
    length = _length(part, box, along)
    return Way(
        Role.LAYER,
        count,
        box.size(thick) / count + (allow.LAYER_THICKNESS if count > 1 else 0.0),
        box.size(across) + allow.LAYER_WIDTH,
        length,
        (max(allow.LENGTH, 2 * means.snipe), allow.RIP_WIDTH),
        thick.word,
    )


def _coopered(part: Part, box: Box, built: Built, means: Means) -> Way:
    """Staves of a hollow column: each as wide as a side of the polygon round it, `wall` thick."""
    across = max(box.size(a) for a in Axis if a != part.grain)
    side = across * math.tan(math.pi / built.least)
    length = box.size(part.grain)
    wall = built.wall if built.wall is not None else across / 4
    return Way(Role.SEGMENT, built.least, wall, side, length, _rough_over(length, allow.RIP_WIDTH, means))


def _bricks(part: Part, box: Box, built: Built, means: Means) -> Way:
    """Bricks of a ring: a chord of the outer circle long, wide enough for arc and wall, a course thick.

    Source: worked out; chord 2 R sin(180°/n), width R - (R - wall) cos(180°/n).
    """
    outline = part.shape.outline
    upright = outline.seen_from.axis if outline else Face.TOP.axis
    radius = max(box.size(a) for a in Axis if a != upright) / 2
    wall = outline.radius if outline and outline.kind is OutlineKind.RING else radius / 4
    half = math.pi / built.least
    courses = built.courses or 1
    chord = 2 * radius * math.sin(half)
    width = radius - (radius - wall) * math.cos(half) + allow.BRICK_OVERLAP
    thick = box.size(upright) / courses + (allow.LAYER_THICKNESS if courses > 1 else 0.0)
    return Way(
        Role.SEGMENT,
        built.least * courses,
        thick,
        width,
        chord,
        _rough_over(chord, allow.RIP_WIDTH, means),
        upright.word,
    )
