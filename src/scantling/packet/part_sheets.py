"""A sheet for each different part: drawing, sizes, holes, cuts, joints, and what rounding would spoil."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.joinery.features import MachinedPart
from scantling.packet.context import Context
from scantling.packet.items import Item
from scantling.packet.joint_words import joint_notes
from scantling.packet.marks import CutMark, HoleGroup, cut_marks, hole_groups, is_even_run
from scantling.packet.part_drawing import part_drawing
from scantling.packet.part_views import PartViews, part_views
from scantling.packet.part_words import (
    grain_words,
    length_words,
    material_words,
    shape_notes,
    thickness_width_length,
    width_words,
)
from scantling.packet.scales import scale_words
from scantling.packet.shown import Sizes
from scantling.packet.tapers import taper_mark
from scantling.piece.model import ArchWork, DishWork, MaterialKind, Part
from scantling.quantity import format_angle, listed

Data = dict[str, object]
SAME = 0.05
NARROW = 122.0  # mm of drawing beside which notes have room
LOOSE = 0.2  # mm: allowed error of the width of a dado or groove (common practice, no source)
SUM_OFF = 25.4 / 64
ASKEW = 0.5  # degrees: less is square to a maker
MATING = frozenset({"mortise", "groove", "dado", "rabbet", "socket", "lap"})


def part_sheets(context: Context) -> list[Data]:
    """All sheets, in item order."""
    return [part_sheet(item, context) for item in context.items.items]


def part_sheet(item: Item, context: Context) -> Data:
    """Everything on one part's sheet, in words and one drawing."""
    machined, sizes = item.first, context.sizes
    views = part_views(context.plan.scene, machined)
    holes, cuts = hole_groups(machined, views.frame), cut_marks(machined, views.frame)
    title = f"Part {item.number}, {item.name}: views with sizes from end 0."
    drawing = part_drawing(
        views, holes, cuts, sizes, title, straight=is_straight(machined), taper=taper_mark(machined, views)
    )
    thick, _, _ = thickness_width_length(machined.part, machined.part.box)
    return {
        "number": item.number,
        "name": item.name,
        "quantity": item.quantity,
        "copies": copies_words(item),
        "thick": sizes.both(thick),
        "wide": width_words(machined, sizes.both),
        "long": length_words(machined, sizes.both),
        "material": material_words(machined.part),
        "grain": grain_words(machined.part),
        "narrow": drawing.width <= NARROW,
        "pair": sizes.pair_head,
        "scale": scale_words(drawing.scale) + (", shortened at the break lines" if drawing.broken else ""),
        "faces": _faces_words(views),
        "svg": drawing.svg,
        "alt": title,
        "holes": [hole_row(group, views, context, machined.name) for group in holes],
        "cuts": cut_rows(cuts, views, context, machined.name),
        "notes": _notes(machined, cuts, views, context),
    }


def is_straight(machined: MachinedPart) -> bool:
    """A box with square ends: only then may a stretch of it be left out of a drawing."""
    curved = any(isinstance(work, ArchWork | DishWork) for work in machined.part.work)
    return machined.part.shape.is_box and not (machined.trims or machined.copes or curved)


def copies_words(item: Item) -> list[str]:
    """Which copies are as drawn and which are opposite."""
    drawn = ", ".join(part.name for part in item.drawn)
    if not item.handed:
        return [drawn] if item.quantity > 1 or item.name != drawn else []
    mirrored = ", ".join(part.name for part in item.mirrored)
    return [f"{item.number}L as drawn: {drawn}", f"{item.number}R opposite hand: {mirrored}"]


def _faces_words(views: PartViews) -> str:
    datum, far, low, _, _, near = views.frame.faces
    return (
        f"Main view: the {near.word} face; end 0 is the {datum.word}, the far end the {far.word}. "
        f"Below it: the {low.word} edge."
    )


def hole_row(group: HoleGroup, views: PartViews, context: Context, part: str) -> Data:
    """One row of the hole table; the place off the face it is drilled from is left out."""
    sizes = context.sizes
    off = views.frame.faces.index(group.face) // 2
    shown = ["" if axis == off else words for axis, words in enumerate(_places(group, sizes))]
    slant = f", {_slant_words(group.slant)}" if group.slant > ASKEW else ""
    return {
        "letter": group.letter,
        "count": len(group.places),
        "face": views.frame.names[group.face],
        "along": shown[0],
        "across": shown[1],
        "through": shown[2],
        "diameter": sizes.pair(group.diameter),
        "deep": "through" if group.through else sizes.pair(group.deep),
        "purpose": _purpose(group.purpose, context.owner(group.owner, part)) + slant,
    }


def _slant_words(slant: float) -> str:
    return f"{slant:.0f}° off square" if slant <= 45 else f"{90 - slant:.0f}° to the face"


def _purpose(purpose: str, owner: str) -> str:
    """What a hole is for: "pilot, slide"; a dowel hole of dowels is just "dowels with 4L"."""
    return owner if owner.startswith(purpose) else f"{purpose}, {owner}"


def _places(group: HoleGroup, sizes: Sizes) -> tuple[str, str, str]:
    """Places in each direction. A grid ("1 3/8 and 34 5/8, each at 2, 6, 10") is said by its lines only."""
    columns = [[place[axis] for place in group.places] for axis in range(3)]
    lines = [sorted({round(place, 1): place for place in column}.values()) for column in columns]
    if len(lines[0]) * len(lines[1]) * len(lines[2]) == len(group.places):
        columns = lines
    along, across, through = (_line_words(column, sizes) for column in columns)
    return along, across, through


def _line_words(places: Sequence[float], sizes: Sizes) -> str:
    """Equal places once, many equal spaces by their ends, else each in order."""
    if is_even_run(places):
        return f"{sizes.plain(places[0])} to {sizes.plain(places[-1])} in {len(places) - 1} equal spaces"
    words = [sizes.plain(place) for place in places]
    return ", ".join(words if len(set(words)) > 1 else words[:1])


def cut_rows(cuts: Sequence[CutMark], views: PartViews, context: Context, part: str) -> list[Data]:
    """One row a letter of the table of joint cuts."""
    rows: dict[str, list[CutMark]] = {}
    for cut in cuts:
        rows.setdefault(cut.letter, []).append(cut)
    return [_cut_row(row, views, context, part) for row in rows.values()]


def _cut_row(row: Sequence[CutMark], views: PartViews, context: Context, part: str) -> Data:
    """Where the cuts of one letter start and end in each direction, and how deep."""
    sizes, frame, cut = context.sizes, views.frame, row[0]
    axis = frame.faces.index(cut.face) // 2
    along, across, through = (_ranges(row, a, views.size[a], sizes) for a in range(3))
    return {
        "letter": cut.letter,
        "kind": cut.kind if len(row) == 1 else f"{len(row)} × {cut.kind}",
        "face": frame.names[cut.face],
        "along": along,
        "across": across,
        "through": through,
        "deep": ("out " if cut.adds else "") + sizes.pair(cut.size(axis)),
        "purpose": context.owner(cut.owner, part),
    }


def _ranges(row: Sequence[CutMark], axis: int, full: float, sizes: Sizes) -> str:
    """From where to where each cut of a row lies; many at equal spaces by the first and the last."""
    ends = sorted({(round(cut.low[axis], 2), round(cut.high[axis], 2)) for cut in row})
    words = list(dict.fromkeys(_range(low, high, full, sizes) for low, high in ends))
    widths = [high - low for low, high in ends]
    if is_even_run([low for low, _ in ends]) and max(widths) - min(widths) < SAME:
        return f"{words[0]} … {words[-1]}, in {len(ends) - 1} equal spaces"
    return "; ".join(words)


def _range(low: float, high: float, full: float, sizes: Sizes) -> str:
    if low < SAME and high > full - SAME:
        return "full"
    return f"{sizes.plain(max(low, 0.0))} to {sizes.plain(high)}"


def _notes(machined: MachinedPart, cuts: Sequence[CutMark], views: PartViews, context: Context) -> list[str]:
    part, sizes = machined.part, context.sizes
    notes = shape_notes(part, sizes)
    if part.built:
        notes.append(f"Glued up: {part.built.kind.value}.")
    notes += joint_notes(machined, context)
    notes += slant_notes(cuts)
    notes += rounding_notes(machined, cuts, views, sizes)
    if part.note:
        notes.append(part.note)
    return notes


def slant_notes(cuts: Sequence[CutMark]) -> list[str]:
    """Cuts that lie askew in a leaning part: their own sizes stand in the table, and how they lie here."""
    askew = {cut.letter: cut for cut in cuts if max(cut.turned, cut.slant) > ASKEW}
    return [
        f"{letter}: sizes are its own, about the middle of its {'root' if cut.adds else 'mouth'}; "
        f"its sides stand {format_angle(cut.turned)} off the edges and it goes in "
        f"{format_angle(cut.slant)} off square. Mark it from the part it meets."
        for letter, cut in askew.items()
    ]


def rounding_notes(
    machined: MachinedPart, cuts: Sequence[CutMark], views: PartViews, sizes: Sizes
) -> list[str]:
    """Where working to the printed numbers would spoil a fit, and what to do instead."""
    notes = _sum_notes(machined, sizes) + _sheet_notes(machined.part, sizes)
    return notes + _loose_notes(cuts, views, sizes)


def _loose_notes(cuts: Sequence[CutMark], views: PartViews, sizes: Sizes) -> list[str]:
    """Cuts something must fit into, whose width the printed number misses; equal widths together."""
    letters: dict[float, dict[str, None]] = {}
    for cut in cuts:
        axis = views.frame.faces.index(cut.face) // 2
        width = min(cut.size(a) for a in range(3) if a != axis)
        if cut.kind in MATING and not cut.adds and abs(sizes.rounded(width) - width) > LOOSE:
            letters.setdefault(round(width, 2), {})[cut.letter] = None
    return [
        f"{listed(list(which))}: {width:.1f} mm wide, printed as {sizes.one(width)}. "
        f"That is {abs(sizes.rounded(width) - width):.1f} mm off, so cut to fit the part that goes in."
        for width, which in letters.items()
    ]


def _sum_notes(machined: MachinedPart, sizes: Sizes) -> list[str]:
    """Rounded shoulder length plus rounded ends against the rounded overall length, along the part."""
    part = machined.part
    box, cut, grain, ratio = part.box, machined.cut_box, part.grain, part.true_ratio
    ends = (ratio * (box.low[grain] - cut.low[grain]), ratio * (cut.high[grain] - box.high[grain]))
    shoulders, overall = part.length * ratio, machined.true_overall_length
    total = sizes.rounded(shoulders) + sum(sizes.rounded(end) for end in ends)
    if abs(total - sizes.rounded(overall)) <= SUM_OFF:
        return []
    return [
        f"Rounded sizes do not add up: work to {overall:.1f} mm overall "
        f"and {shoulders:.1f} mm between shoulders."
    ]


def _sheet_notes(part: Part, sizes: Sizes) -> list[str]:
    thick = part.thickness
    off = abs(sizes.rounded(thick) - thick)
    if part.material.kind is not MaterialKind.SHEET or off <= LOOSE:
        return []
    return [f"The sheet is {thick:.1f} mm thick, {off:.1f} mm off the printed {sizes.one(thick)}: fit to it."]
