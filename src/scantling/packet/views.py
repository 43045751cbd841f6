"""Whole-piece drawings: the cover, general views with sizes, the exploded view, one picture a state."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from scantling.geometry import LineDrawing, Scene, ShadedPicture, View, pose_placements
from scantling.packet.canvas import INK, Canvas, Pen, Point
from scantling.packet.dimensions import Mark, across, running_up, spread, upright
from scantling.packet.exploding import exploded_placements
from scantling.packet.items import Item, Items
from scantling.packet.pictures import Gallery, draw_lines, paint, seen_area, spot_on, view_lines
from scantling.packet.scales import fitting_scale
from scantling.packet.shown import Sizes
from scantling.piece.model import Axis, PartName, Piece

WIDE = 170.0
BALLOON = 3.6
LEVELS = 8


@dataclass(frozen=True)
class Drawing:
    """A picture ready for paper; `scale` None where none is meant."""

    svg: str
    alt: str
    scale: float | None = None


def cover_pictures(gallery: Gallery) -> list[Drawing]:
    """The finished piece in its own tones; beside it the pose in which most has moved, if there is one."""
    poses = [pose for pose in gallery.scene.piece.poses if pose.steps]
    if not poses:
        return [_finished(gallery, (WIDE, 150.0))]
    widest = max(poses, key=lambda pose: len(pose.steps))
    return [_finished(gallery, (94.0, 150.0)), pose_picture(gallery, widest.name, (76.0, 126.0))]


def _finished(gallery: Gallery, room: Point) -> Drawing:
    alt = f"{gallery.scene.piece.name}, seen from the front right and above."
    return Drawing(_fitted(gallery.at_rest(), room, None, alt), alt)


def state_picture(
    gallery: Gallery, parts: Sequence[PartName], fresh: Collection[PartName], room: Point = (62.0, 50.0)
) -> Drawing:
    """The parts joined so far; `fresh` ones in full tone, the rest pale."""
    alt = f"The piece at this step: {len(parts)} parts together, {', '.join(sorted(fresh)) or 'none'} new."
    return Drawing(_fitted(gallery.at_rest(parts), room, fresh, alt), alt)


def pose_picture(gallery: Gallery, pose: str, room: Point = (56.0, 46.0)) -> Drawing:
    """The piece with its movements as in `pose`."""
    piece = gallery.scene.piece
    picture = gallery.moved(pose_placements(piece, pose))
    alt = f"{piece.name} in the pose called {pose}."
    return Drawing(_fitted(picture, room, None, alt), alt)


def _fitted(
    picture: ShadedPicture, room: Point, fresh: Collection[PartName] | None, alt: str, margin: float = 1.0
) -> str:
    (left, bottom), (right, top) = picture.low, picture.high
    scale = max((right - left) / (room[0] - 2 * margin), (top - bottom) / (room[1] - 2 * margin), 1e-6)
    canvas = Canvas((right - left) / scale + 2 * margin, (top - bottom) / scale + 2 * margin)
    paint(canvas, picture, (margin - left / scale, margin + top / scale), scale, fresh)
    return canvas.svg(alt)


def general_views(scene: Scene, sizes: Sizes) -> Drawing:
    """Front, right side and top in third angle, with overall sizes and the main heights."""
    wide, deep, high = scene.piece.overall.sizes
    scale = fitting_scale(wide + deep, high + deep, (127.0, 152.0), sizes.style.unit)
    left, gap, head = 22.0, 15.0, 3.0
    top_low = head + deep / scale
    low = top_low + gap + high / scale
    side = left + wide / scale + gap
    canvas = Canvas(side + deep / scale + 14.0, low + 16.0)
    zeros = {"top": (left, top_low), "front": (left, low), "right": (side, low)}
    drawings = {name: view_lines(scene, View.named(name)) for name in zeros}
    for name, zero in zeros.items():
        draw_lines(canvas, drawings[name], _zero(scene.piece, drawings[name], zero, scale), scale, Pen.EDGE)
        canvas.text(
            (zero[0], zero[1] + 4.2), name if name != "right" else "right side", size=3.0, anchor="start"
        )
    marks = _levels(scene.piece, low, scale, sizes)
    running_up(canvas, low, marks, left - 6.0, left)
    across(canvas, left, left + wide / scale, low + 11.0, low + 3.5, sizes.plain(wide))
    across(canvas, side, side + deep / scale, low + 11.0, low + 3.5, sizes.plain(deep))
    upright(canvas, top_low, head, left + wide / scale + 8.0, left + wide / scale, sizes.plain(deep))
    alt = f"Front, right side and top view of {scene.piece.name}, with overall sizes."
    return Drawing(canvas.svg(alt), alt, scale)


def _zero(piece: Piece, drawing: LineDrawing, corner: Point, scale: float) -> Point:
    """Paper place of the drawing's zero, so that the lower left of the overall box falls on `corner`."""
    u, v = drawing.view.project(piece.overall.low)
    return (corner[0] - u / scale, corner[1] + v / scale)


def _levels(piece: Piece, low: float, scale: float, sizes: Sizes) -> list[Mark]:
    """The heights worth a number: those at which most upward or downward face lies, and the top."""
    weight: dict[float, float] = {}
    for part in piece.parts:
        if not part.placement.is_identity:
            continue
        area = part.box.size(Axis.WIDE) * part.box.size(Axis.DEEP)
        for level in (part.box.low[Axis.HIGH], part.box.high[Axis.HIGH]):
            weight[round(level, 1)] = weight.get(round(level, 1), 0.0) + area
    bottom, top = round(piece.overall.low[Axis.HIGH], 1), round(piece.overall.high[Axis.HIGH], 1)
    best = sorted(
        (level for level in weight if bottom + 1 < level < top - 1), key=lambda level: -weight[level]
    )
    kept = [top]
    for level in best[: LEVELS * 2]:
        if len(kept) < LEVELS and all(abs(level - other) / scale > 3.0 for other in kept):
            kept.append(level)
    return [Mark(low - (level - bottom) / scale, sizes.plain(level - bottom)) for level in kept]


def exploded_view(gallery: Gallery, items: Items) -> Drawing:
    """Every part apart, each item with one balloon at the edge of the picture."""
    piece = gallery.scene.piece
    picture = gallery.moved(exploded_placements(piece))
    (left, bottom), (right, top) = picture.low, picture.high
    side = 16.0
    scale = max((right - left) / (WIDE - 2 * side), (top - bottom) / 180.0)
    high = (top - bottom) / scale
    zero = (side - left / scale, 4.0 + top / scale)
    canvas = Canvas((right - left) / scale + 2 * side, high + 8.0)
    paint(canvas, picture, zero, scale)
    spots = {item: _item_spot(picture, item, zero, scale) for item in items.items}
    _balloons(canvas, {item: spot for item, spot in spots.items() if spot}, canvas.width)
    alt = f"Exploded view of {piece.name} with an item number on each different part."
    return Drawing(canvas.svg(alt), alt)


def _item_spot(picture: ShadedPicture, item: Item, zero: Point, scale: float) -> Point | None:
    """On the copy of the item that is seen best, as drawn on paper."""
    name = max((part.name for part in item.parts), key=lambda part: seen_area(picture, part))
    spot = spot_on(picture, name)
    return spot and (zero[0] + spot[0] / scale, zero[1] - spot[1] / scale)


def _balloons(canvas: Canvas, spots: dict[Item, Point], width: float) -> None:
    """Half of the balloons down each side, in the order of their spots, so that leaders don't cross."""
    across_order = sorted(spots, key=lambda item: spots[item][0])
    half = (len(across_order) + 1) // 2
    for column, x in ((across_order[:half], BALLOON + 1), (across_order[half:], width - BALLOON - 1)):
        ordered = sorted(column, key=lambda item: spots[item][1])
        heights = _within(spread([spots[i][1] for i in ordered], 2 * BALLOON + 1.4), canvas.height)
        for item, y in zip(ordered, heights, strict=True):
            _balloon(canvas, (x, y), spots[item], item.number)


def _within(heights: list[float], height: float) -> list[float]:
    """The column moved so that none leaves the picture."""
    if not heights:
        return heights
    over = max(0.0, heights[-1] + BALLOON + 0.6 - height)
    under = max(0.0, BALLOON + 0.6 - heights[0])
    return [y - over + under for y in heights]


def _balloon(canvas: Canvas, at: Point, spot: Point, number: int) -> None:
    reach = ((spot[0] - at[0]) ** 2 + (spot[1] - at[1]) ** 2) ** 0.5 or 1.0
    start = (at[0] + (spot[0] - at[0]) * BALLOON / reach, at[1] + (spot[1] - at[1]) * BALLOON / reach)
    canvas.line(Pen.THIN, start, spot)
    canvas.circle(spot, 0.7, fill=INK, pen=Pen.NONE)
    canvas.circle(at, BALLOON, fill="#ffffff", pen=Pen.EDGE)
    canvas.text((at[0], at[1] + 1.35), str(number), size=4.0, bold=True, halo=False)
