"""One board, sheet or stick drawn to scale: blanks, saw cuts in order, defects, offcuts, waste."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scantling.cutting.cut_plan import Blank, Piece2D, SawCut, StockLayout
from scantling.packet.canvas import INK, QUIET, Canvas, Pen, Point, text_width
from scantling.packet.cut_labels import Leaf, draw_grain, write_label
from scantling.packet.dimensions import TEXT, across, upright
from scantling.packet.hatching import hatch
from scantling.packet.places import Patch, Taken
from scantling.packet.scales import rounded_scale, scale_words, snug_scale
from scantling.packet.shown import Sizes
from scantling.shop.model import BoardFace, Defect

ROOM = (153.0, 105.0)
LEFT, ABOVE, BELOW, RIGHT = 11.0, 5.5, 12.0, 10.0
BLANK_TINT = "#f3e6cf"
OFFCUT_TINT = "#ffffff"
WASTE_TINT = "#eceae6"
BADGE = 2.2
ROW = 6.5  # mm of paper the narrowest blank should have
TALLEST = 40.0  # mm of paper a board may be drawn wide


@dataclass(frozen=True, slots=True)
class CutDrawing:
    svg: str
    scale: str
    alt: str


@dataclass(frozen=True, slots=True)
class _Frame:
    """Stock coordinates (y up from the reference edge) to paper, in two scales."""

    along: float
    across: float
    width: float

    def at(self, x: float, y: float) -> Point:
        return (LEFT + x / self.along, ABOVE + (self.width - y) / self.across)

    def size(self, length: float, width: float) -> Point:
        return (length / self.along, width / self.across)

    def leaf(self, piece: Piece2D) -> Leaf:
        return Leaf(self.at(piece.x, piece.y + piece.width), self.size(piece.length, piece.width))

    @property
    def words(self) -> str:
        """Scale 1:16, or both scales of a board drawn wider than it is."""
        if self.across == self.along:
            return scale_words(self.along)
        return f"{scale_words(self.along)} along, 1:{self.across:g} across"


def cut_drawing(
    layout: StockLayout,
    defects: Sequence[Defect],
    labels: Mapping[str, str],
    blanks: Mapping[str, Blank],
    sizes: Sizes,
) -> CutDrawing:
    """Draw one stock. `labels`: what is written on each blank, by blank id."""
    frame = _frame(layout)
    (wide, high), corner = frame.size(layout.length, layout.width), frame.at(0, layout.width)
    canvas, taken = Canvas(LEFT + wide + RIGHT, ABOVE + high + BELOW), Taken()
    canvas.rectangle(corner, (wide, high), fill=WASTE_TINT)
    hatch(canvas, corner, (wide, high), 2.6, crossed=True)
    leaves = [(piece, frame.leaf(piece)) for piece in layout.pieces if piece.use in ("blank", "offcut")]
    for piece, leaf in leaves:
        _fill(canvas, leaf, piece)
    for defect in defects:
        _defect(canvas, taken, frame, defect)
    canvas.rectangle(corner, (wide, high), pen=Pen.OUTLINE)
    _saw_cuts(canvas, taken, frame, layout)
    for piece, leaf in leaves:
        _leaf(canvas, taken, leaf, piece, labels, blanks, sizes)
    _overall(canvas, frame, layout, sizes)
    return CutDrawing(canvas.svg(_alt(layout, sizes)), frame.words, _alt(layout, sizes))


def _frame(layout: StockLayout) -> _Frame:
    """To scale; a narrow board is drawn wider than it is, so that its blanks can be labelled."""
    along = snug_scale(layout.length, layout.width, ROOM)
    narrowest = min((piece.width for piece in layout.pieces if piece.use == "blank"), default=layout.width)
    wanted = max(narrowest / ROW, layout.width / TALLEST)
    across = rounded_scale(wanted) if wanted < 0.8 * along else along
    return _Frame(along, across, layout.width)


def _leaf(
    canvas: Canvas,
    taken: Taken,
    leaf: Leaf,
    piece: Piece2D,
    labels: Mapping[str, str],
    blanks: Mapping[str, Blank],
    sizes: Sizes,
) -> None:
    """The words of a blank or an offcut, and the grain of a blank."""
    size = f"{sizes.plain(piece.length)} × {sizes.plain(piece.width)}"
    is_blank = piece.use == "blank"
    words = labels.get(piece.blank, piece.blank) if is_blank else "offcut"
    write_label(canvas, taken, leaf, words, size, halo=not is_blank)
    if piece.blank in blanks:
        draw_grain(canvas, taken, leaf, turned=_is_turned(blanks[piece.blank], piece))


def _fill(canvas: Canvas, leaf: Leaf, piece: Piece2D) -> None:
    is_blank = piece.use == "blank"
    canvas.rectangle(leaf.corner, leaf.room, fill=BLANK_TINT if is_blank else OFFCUT_TINT, pen=Pen.EDGE)
    if not is_blank:
        hatch(canvas, leaf.corner, leaf.room, 3.2)


def _is_turned(blank: Blank, piece: Piece2D) -> bool:
    return abs(blank.rough_length - piece.length) > 0.5 and abs(blank.rough_length - piece.width) <= 0.5


def _defect(canvas: Canvas, taken: Taken, frame: _Frame, defect: Defect) -> None:
    corner = frame.at(defect.from_end, defect.to_edge)
    room = frame.size(defect.to_end - defect.from_end, defect.to_edge - defect.from_edge)
    canvas.rectangle(corner, room, fill="#d8cfc2")
    hatch(canvas, corner, room, 0.7, crossed=True)
    canvas.rectangle(corner, room, pen=Pen.EDGE if defect.face is not BoardFace.OTHER else Pen.HIDDEN)
    middle = (corner[0] + room[0] / 2, corner[1] + room[1] / 2)
    taken.take(Patch(middle, (max(room[0], text_width(defect.kind, 2.8)), max(room[1], 2.8))))
    canvas.text((middle[0], middle[1] + 1.0), defect.kind, size=2.8, ink=INK)


def _saw_cuts(canvas: Canvas, taken: Taken, frame: _Frame, layout: StockLayout) -> None:
    """Every kerf as a thick line, then the numbers, moved along their cut until none covers another."""
    pieces = {piece.id: piece for piece in layout.pieces}
    lines = [(cut, _kerf(frame, cut, pieces[cut.of])) for cut in layout.cuts if cut.of in pieces]
    for _, ends in lines:
        canvas.line(Pen.SAW, *ends)
    for cut, ends in lines:
        wishes = [Patch(place, (2 * BADGE, 2 * BADGE)) for place in _badge_places(frame, cut, ends)]
        place = taken.first_free(wishes) or wishes[0]
        _badge(canvas, place.middle, cut)


def _kerf(frame: _Frame, cut: SawCut, piece: Piece2D) -> tuple[Point, Point]:
    middle = cut.at + cut.kerf / 2
    if cut.across:
        return frame.at(middle, piece.y + piece.width), frame.at(middle, piece.y)
    return frame.at(piece.x, middle), frame.at(piece.x + piece.length, middle)


def _badge_places(frame: _Frame, cut: SawCut, ends: tuple[Point, Point]) -> list[Point]:
    """Outside the stock where the cut starts at its edge, else just inside; then on along the cut."""
    (x, y), step = ends[0], BADGE + 0.1
    at_edge = y <= ABOVE + 0.5 if cut.across else x <= LEFT + 1 / frame.along
    start = -BADGE if at_edge else BADGE
    room = (ends[1][1] - y if cut.across else ends[1][0] - x) - BADGE
    offs = [start, *(start + step * turn for turn in range(1, 9) if start + step * turn < room)]
    return [(x, y + off) if cut.across else (x + off, y) for off in offs]


def _badge(canvas: Canvas, at: Point, cut: SawCut) -> None:
    canvas.circle(at, BADGE, fill="#ffffff", pen=Pen.EDGE)
    size = 3.1 if cut.number < 10 else 2.7
    canvas.text((at[0], at[1] + size * 0.35), str(cut.number), size=size, bold=True, halo=False)


def _overall(canvas: Canvas, frame: _Frame, layout: StockLayout, sizes: Sizes) -> None:
    (left, bottom), (right, top) = frame.at(0, 0), frame.at(layout.length, layout.width)
    across(canvas, left, right, bottom + 8.5, bottom, sizes.plain(layout.length))
    if bottom - top > text_width(sizes.plain(layout.width), TEXT) + 1:
        upright(canvas, bottom, top, right + 5.0, right, sizes.plain(layout.width))
    canvas.text((left + 2, bottom + 3.6), "end 0", size=2.8, anchor="start", ink=QUIET)


def _alt(layout: StockLayout, sizes: Sizes) -> str:
    return (
        f"{len(layout.placed)} blanks on {layout.species}, {sizes.one(layout.length)} by "
        f"{sizes.one(layout.width)}, with {len(layout.cuts)} saw cuts in order."
    )
