"""One board, sheet or stick drawn to scale: blanks, saw cuts in order, defects, offcuts, waste."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scantling.cutting.cut_plan import Blank, Piece2D, SawCut, StockLayout
from scantling.packet.canvas import INK, QUIET, Canvas, Pen, Point, text_width
from scantling.packet.dimensions import TEXT, across, upright
from scantling.packet.hatching import hatch
from scantling.packet.scales import fitting_scale
from scantling.packet.shown import Sizes
from scantling.shop.model import BoardFace, Defect

ROOM = (153.0, 95.0)
LEFT, ABOVE, BELOW, RIGHT = 11.0, 8.0, 12.0, 10.0
BLANK_TINT = "#f3e6cf"
OFFCUT_TINT = "#ffffff"
WASTE_TINT = "#eceae6"
BADGE = 1.95
SMALLEST = 2.1  # mm of lettering; a piece too small for it is found by its place in the table


@dataclass(frozen=True, slots=True)
class CutDrawing:
    svg: str
    scale: float
    alt: str


@dataclass(frozen=True, slots=True)
class _Frame:
    """Stock coordinates (y up from the reference edge) to paper."""

    scale: float
    width: float

    def at(self, x: float, y: float) -> Point:
        return (LEFT + x / self.scale, ABOVE + (self.width - y) / self.scale)

    def rectangle(self, x: float, y: float, length: float, width: float) -> tuple[Point, Point]:
        return self.at(x, y + width), (length / self.scale, width / self.scale)


def cut_drawing(
    layout: StockLayout,
    defects: Sequence[Defect],
    labels: Mapping[str, str],
    blanks: Mapping[str, Blank],
    sizes: Sizes,
) -> CutDrawing:
    """Draw one stock. `labels`: what is written on each blank, by blank id."""
    scale = fitting_scale(layout.length, layout.width, ROOM, sizes.style.unit)
    frame = _Frame(scale, layout.width)
    wide, high = layout.length / scale, layout.width / scale
    canvas = Canvas(LEFT + wide + RIGHT, ABOVE + high + BELOW)
    canvas.rectangle(frame.at(0, layout.width), (wide, high), fill=WASTE_TINT)
    hatch(canvas, frame.at(0, layout.width), (wide, high), 2.6, crossed=True)
    for piece in layout.pieces:
        if piece.use in ("blank", "offcut"):
            _leaf(canvas, frame, piece, labels, blanks, sizes)
    for defect in defects:
        _defect(canvas, frame, defect)
    canvas.rectangle(frame.at(0, layout.width), (wide, high), pen=Pen.OUTLINE)
    _saw_cuts(canvas, frame, layout)
    _overall(canvas, frame, layout, sizes)
    return CutDrawing(canvas.svg(_alt(layout, sizes)), scale, _alt(layout, sizes))


def _leaf(
    canvas: Canvas,
    frame: _Frame,
    piece: Piece2D,
    labels: Mapping[str, str],
    blanks: Mapping[str, Blank],
    sizes: Sizes,
) -> None:
    corner, room = frame.rectangle(piece.x, piece.y, piece.length, piece.width)
    is_blank = piece.use == "blank"
    canvas.rectangle(corner, room, fill=BLANK_TINT if is_blank else OFFCUT_TINT, pen=Pen.EDGE)
    if not is_blank:
        hatch(canvas, corner, room, 3.2)
    size = f"{sizes.plain(piece.length)} × {sizes.plain(piece.width)}"
    words = labels.get(piece.blank, piece.blank) if is_blank else "offcut"
    _label(canvas, corner, room, words, size)
    if is_blank and piece.blank in blanks:
        _grain(canvas, corner, room, turned=_is_turned(blanks[piece.blank], piece))


def _is_turned(blank: Blank, piece: Piece2D) -> bool:
    return abs(blank.rough_length - piece.length) > 0.5 and abs(blank.rough_length - piece.width) <= 0.5


def _label(canvas: Canvas, corner: Point, room: Point, words: str, size: str) -> None:
    """The mark in bold and, where there is room, the size under or after it; upright when narrow."""
    (x, y), (w, h) = corner, room
    turn = -90.0 if w < h and text_width(words, 3.6) > w - 1 else 0.0
    along, deep = (h, w) if turn else (w, h)
    middle = (x + w / 2, y + h / 2)
    mark = min(4.2, deep * 0.78, 4.2 * (along - 1) / max(text_width(words, 4.2), 0.1))
    if mark < SMALLEST:
        return
    small = min(2.9, mark)
    if deep > 9.5 and text_width(size, small) < along - 2:
        canvas.text(_moved(middle, turn, 0.0), words, size=mark, turn=turn, bold=True)
        canvas.text(_moved(middle, turn, 4.0), size, size=small, turn=turn)
        return
    gap = text_width(words, mark) + 3.0
    after = gap + text_width(size, small) < along - 10 and small >= SMALLEST
    start = -(gap + text_width(size, small)) / 2 if after else -text_width(words, mark) / 2
    canvas.text(
        _slid(_moved(middle, turn, mark * 0.35), turn, start),
        words,
        size=mark,
        turn=turn,
        bold=True,
        anchor="start",
    )
    if after:
        canvas.text(
            _slid(_moved(middle, turn, small * 0.35), turn, start + gap),
            size,
            size=small,
            turn=turn,
            anchor="start",
        )


def _slid(point: Point, turn: float, along: float) -> Point:
    return (point[0], point[1] - along) if turn else (point[0] + along, point[1])


def _moved(point: Point, turn: float, down: float) -> Point:
    return (point[0] + down, point[1]) if turn else (point[0], point[1] + down)


def _grain(canvas: Canvas, corner: Point, room: Point, turned: bool) -> None:
    """A double arrow along the grain at the corner of a blank, where it fits."""
    (x, y), (w, h) = corner, room
    if min(w, h) < 7 or max(w, h) < 26:
        return
    if turned:
        canvas.double_arrow((x + 3.5, y + h - 3), (x + 3.5, y + h - 11))
        return
    canvas.double_arrow((x + 3, y + h - 2.6), (x + 11, y + h - 2.6))


def _defect(canvas: Canvas, frame: _Frame, defect: Defect) -> None:
    length, width = defect.to_end - defect.from_end, defect.to_edge - defect.from_edge
    corner, room = frame.rectangle(defect.from_end, defect.from_edge, length, width)
    canvas.rectangle(corner, room, fill="#d8cfc2")
    hatch(canvas, corner, room, 0.7, crossed=True)
    canvas.rectangle(corner, room, pen=Pen.EDGE if defect.face is not BoardFace.OTHER else Pen.HIDDEN)
    canvas.text((corner[0] + room[0] / 2, corner[1] + room[1] / 2 + 0.9), defect.kind, size=2.6, ink=INK)


def _saw_cuts(canvas: Canvas, frame: _Frame, layout: StockLayout) -> None:
    """Every kerf as a thick line, then the numbers, moved along their cut until none covers another."""
    pieces = {piece.id: piece for piece in layout.pieces}
    lines = [(cut, _kerf(frame, cut, pieces[cut.of])) for cut in layout.cuts if cut.of in pieces]
    for _, ends in lines:
        canvas.line(Pen.SAW, *ends)
    taken: list[Point] = []
    for cut, ends in lines:
        taken.append(_free_place(frame, cut, ends, taken))
        _badge(canvas, taken[-1], cut)


def _kerf(frame: _Frame, cut: SawCut, piece: Piece2D) -> tuple[Point, Point]:
    middle = cut.at + cut.kerf / 2
    if cut.across:
        return frame.at(middle, piece.y + piece.width), frame.at(middle, piece.y)
    return frame.at(piece.x, middle), frame.at(piece.x + piece.length, middle)


def _free_place(frame: _Frame, cut: SawCut, ends: tuple[Point, Point], taken: Sequence[Point]) -> Point:
    """Outside the stock where the cut starts at its edge, else just inside; on along the cut if taken."""
    (x, y), step = ends[0], 2 * BADGE + 0.2
    at_edge = y <= ABOVE + 0.5 if cut.across else x <= LEFT + 1 / frame.scale
    start = -BADGE if at_edge else BADGE
    for turn in range(2 if cut.across else 4):
        off = start + turn * step
        place = (x, y + off) if cut.across else (x + off, y)
        if all(abs(place[0] - a) >= step or abs(place[1] - b) >= step for a, b in taken):
            return place
    return (x, y + start) if cut.across else (x + start, y)


def _badge(canvas: Canvas, at: Point, cut: SawCut) -> None:
    canvas.circle(at, BADGE, fill="#ffffff", pen=Pen.EDGE)
    canvas.text((at[0], at[1] + 0.95), str(cut.number), size=2.7, bold=True, halo=False)


def _overall(canvas: Canvas, frame: _Frame, layout: StockLayout, sizes: Sizes) -> None:
    (left, bottom), (right, top) = frame.at(0, 0), frame.at(layout.length, layout.width)
    across(canvas, left, right, bottom + 7.5, bottom, sizes.plain(layout.length))
    if bottom - top > text_width(sizes.plain(layout.width), TEXT) + 1:
        upright(canvas, bottom, top, right + 5.0, right, sizes.plain(layout.width))
    canvas.text((left + 2, bottom + 3.4), "end 0", size=2.6, anchor="start", ink=QUIET)


def _alt(layout: StockLayout, sizes: Sizes) -> str:
    return (
        f"{layout.stock}: {len(layout.placed)} blanks on {layout.species}, {sizes.one(layout.length)} by "
        f"{sizes.one(layout.width)}, with {len(layout.cuts)} saw cuts in order."
    )
