"""The views of one part, to scale, with running sizes from end 0 and letters for its table.

Edges come from geometry (true hidden lines); holes are drawn from the features, so circles are circles.
Views stand as in third angle: what is drawn under the main view is the lower edge as seen from there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.packet.canvas import QUIET, Canvas, Pen, Point, text_width
from scantling.packet.dimensions import TEXT, Mark, across, running, running_room, upright
from scantling.packet.folding import Fold, folded, unfolded
from scantling.packet.marks import CutMark, HoleGroup, is_even_run
from scantling.packet.part_views import Edges, PartViews, Segment
from scantling.packet.places import Patch, Taken
from scantling.packet.scales import fitting_scale
from scantling.packet.shown import Sizes
from scantling.packet.tapers import TaperMark
from scantling.piece.model import Vec3

# Room for the length with its ends, and for width and thickness: beside the notes, or all across the page.
BESIDE_NOTES = (84.0, 56.0)
ALL_ACROSS = (140.0, 62.0)
CROWDED = 8  # sizes in one row past which a drawing takes the whole width
SLENDER = 7.0  # length over width past which a part is broken to be drawn larger
APART = 11.0  # between a view and the next, with room for "end 0" and the grain
BESIDE = 8.0  # between the main view and an end
EDGE = 6.0  # right of the drawing
SIDE = 7.0  # from a view to the dimension left of it
LABEL = 3.2
THIN = 2.0  # mm of paper under which wide outlines would run together
LENGTHWISE = ("main", "below")


@dataclass(frozen=True)
class PartDrawing:
    svg: str
    scale: float
    broken: bool
    width: float


@dataclass(frozen=True)
class _Layout:
    """Where each view's zero lies on the paper, and how big the paper is."""

    zeros: dict[str, Point]
    width: float
    height: float


@dataclass(frozen=True)
class _NarrowEnds:
    """(view, (low, high), words) of what a taper leaves, at which end, and the paper it takes there."""

    spans: tuple[tuple[str, tuple[float, float], str], ...] = ()
    far: bool = False
    room: float = 0.0

    @property
    def before(self) -> float:
        return 0.0 if self.far else self.room

    @property
    def after(self) -> float:
        return self.room if self.far else 0.0


@dataclass(frozen=True)
class _Page:
    canvas: Canvas
    fold: Fold
    zeros: dict[str, Point]

    def at(self, view: str, u: float, v: float) -> Point:
        """Paper place of a point of a view. Lengthwise views are folded."""
        zero, scale = self.zeros[view], self.fold.scale
        across = self.fold.at(u) if view in LENGTHWISE else u / scale
        return (zero[0] + across, zero[1] - v / scale)


def part_drawing(
    views: PartViews,
    holes: Sequence[HoleGroup],
    cuts: Sequence[CutMark],
    sizes: Sizes,
    title: str,
    straight: bool,
    taper: TaperMark | None = None,
) -> PartDrawing:
    """Main view, lower edge and ends. `straight`: a box with square ends, which may be drawn broken."""
    fold = _fold(views, holes, cuts, sizes, straight)
    ends = views.frame.faces[:2]  # what enters an end has no place along
    sideways = [group for group in holes if group.face not in ends]
    above = _once([Mark(fold.at(u), sizes.plain(u)) for group in sideways for u in _hole_places(group)])
    starts = [taper.start] if taper else []
    places = [*starts, *_cut_places(cuts, views.size[0]), views.size[0]]
    under = _once([Mark(fold.at(u), sizes.plain(u)) for u in places])
    narrow = _narrow_ends(taper, views, sizes)
    layout = _layout(views, fold, above, under, sizes, narrow)
    page = _Page(Canvas(layout.width, layout.height), fold, layout.zeros)
    for view, edges in views.edges.items():
        _draw_view(page, view, edges, views.size)
        for group in holes:
            for place in group.places:
                _draw_hole(page, view, group, place)
    _letters(page, cuts, holes, views)
    _sizes(page, views.size, above, under, sizes, narrow)
    return PartDrawing(page.canvas.svg(title), fold.scale, bool(fold.breaks), layout.width)


def _narrow_ends(taper: TaperMark | None, views: PartViews, sizes: Sizes) -> _NarrowEnds:
    """What is left at the end of a taper, in the views it narrows."""
    if taper is None:
        return _NarrowEnds()
    spans = (("main", taper.main, views.size[1]), ("below", taper.below, views.size[2]))
    shown = tuple((view, span, sizes.plain(span[1] - span[0])) for view, span, full in spans
                  if 0 < span[1] - span[0] < full - 0.05)  # fmt: skip
    room = SIDE + max((text_width(words, TEXT) for _, _, words in shown), default=-SIDE)
    return _NarrowEnds(shown, taper.far, room)


def _layout(
    views: PartViews,
    fold: Fold,
    above: Sequence[Mark],
    under: Sequence[Mark],
    sizes: Sizes,
    narrow: _NarrowEnds,
) -> _Layout:
    _, width, thick = (value / fold.scale for value in views.size)
    left = _margin(thick, sizes.plain(views.size[2]))
    if "end 0" in views.edges:
        left = max(left, 2.0 + thick + SIDE + TEXT + 2.0)
    left += narrow.before
    right = left + fold.paper + narrow.after
    low = 1.0 + (9.0 + running_room(above) if above else 1.0) + width
    foot = low + APART + thick
    zeros = {
        "main": (left, low),
        "below": (left, foot),
        "end 0": (left - narrow.before - SIDE - TEXT - 2.0 - thick, low),
        "far end": (right + BESIDE + thick, low),
    }
    paper = right + (BESIDE + thick if "far end" in views.edges else 0.0) + EDGE
    return _Layout(zeros, paper, foot + (9.5 if len(under) == 1 else 8.0 + running_room(under)))


def _margin(thick: float, words: str) -> float:
    """Room left of the views: for upright numbers, or for a thickness too small to hold its own."""
    fits = text_width(words, TEXT) + 1 < thick
    return SIDE + (TEXT + 1.0 if fits else text_width(words, TEXT) + 2.0)


def _fold(
    views: PartViews, holes: Sequence[HoleGroup], cuts: Sequence[CutMark], sizes: Sizes, straight: bool
) -> Fold:
    """The whole length at the largest scale, or a broken view where that makes a slender part readable."""
    unit, (length, width, thick) = sizes.style.unit, views.size
    room = _room(holes, cuts, length)
    ends = thick * sum(view not in LENGTHWISE for view in views.edges)
    whole = fitting_scale(length + ends, width + thick, room, unit)
    if not straight or length < SLENDER * width or whole <= 2:
        return unfolded(length, whole)
    worth = [p[0] for g in holes for p in g.places] + _cut_places(cuts, length)
    scale = max(2.0, fitting_scale(0.0, width + thick, room, unit))
    while scale < whole:
        fold = folded(length, worth, scale)
        if fold.paper + ends / scale <= room[0]:
            return fold
        scale = fitting_scale((scale + 0.01) * room[0], 0.0, room, unit)
    return unfolded(length, whole)


def _room(holes: Sequence[HoleGroup], cuts: Sequence[CutMark], length: float) -> Point:
    bored = {round(u, 1) for group in holes for u in _hole_places(group)}
    return ALL_ACROSS if max(len(bored), len(_cut_places(cuts, length))) > CROWDED else BESIDE_NOTES


def _hole_places(group: HoleGroup) -> list[float]:
    """Places along the part worth a number; of many equal spaces the first two and the last."""
    places = sorted({round(place[0], 2) for place in group.places})
    return [*places[:2], places[-1]] if is_even_run(places) else places


def _cut_places(cuts: Sequence[CutMark], length: float) -> list[float]:
    places = {round(u, 2) for cut in cuts for u in (cut.low[0], cut.high[0])}
    return sorted(u for u in places if 0.05 < u < length - 0.05)


def _draw_view(page: _Page, view: str, edges: Edges, size: Vec3) -> None:
    outline = Pen.OUTLINE if min(size) / page.fold.scale > THIN else Pen.EDGE
    for pen, segments in ((Pen.HIDDEN, edges.hidden), (outline, edges.visible)):
        for segment in segments:
            for piece in _pieces(page.fold, segment) if view in LENGTHWISE else [segment]:
                page.canvas.line(pen, *(page.at(view, u, v) for u, v in piece))
    if view in LENGTHWISE:
        x, low = page.zeros[view]
        high = low - size[1 if view == "main" else 2] / page.fold.scale
        for place in page.fold.breaks:
            _break(page.canvas, x + place, low, high)


def _pieces(fold: Fold, segment: Segment) -> list[Segment]:
    """What is drawn of a segment; a lengthwise one is cut at breaks."""
    if len(fold.kept) == 1:
        return [segment]
    (u1, v1), (u2, v2) = sorted(segment)
    if u2 - u1 < 1e-9:
        return [segment]
    rise = (v2 - v1) / (u2 - u1)
    return [((a, v1 + rise * (a - u1)), (b, v1 + rise * (b - u1))) for a, b in fold.shown(u1, u2) if b > a]


def _break(canvas: Canvas, x: float, low: float, high: float) -> None:
    """Two thin zigzags across a view, 5 mm apart."""
    middle = (low + high) / 2
    for at in (x, x + 5.0):
        jag = [(at, middle + 1.2), (at - 1.0, middle + 0.4), (at + 1.0, middle - 0.4), (at, middle - 1.2)]
        canvas.line(Pen.THIN, (at, low + 1.2), *jag, (at, high - 1.2))


def _axes(view: str, vector: Vec3) -> Vec3:
    """(right, up, toward) in a view of a vector given as (along, up, toward) of the part."""
    a, u, t = vector
    turned = {"main": (a, u, t), "below": (a, t, -u), "far end": (-t, u, a), "end 0": (t, u, -a)}
    return turned[view]


def _draw_hole(page: _Page, view: str, group: HoleGroup, place: Vec3) -> None:
    right, up, toward = _axes(view, group.way)
    u, v, _ = _axes(view, place)
    at, radius = page.at(view, u, v), group.diameter / 2 / page.fold.scale
    if abs(toward) > 0.999:
        seen = toward < 0 or group.through
        page.canvas.circle(at, max(radius, 0.35), pen=Pen.EDGE if seen else Pen.HIDDEN)
        _cross(page.canvas, at, radius + 1.2)
        return
    deep = group.deep / page.fold.scale
    norm = (right**2 + up**2) ** 0.5 or 1.0
    off = (up / norm * radius, right / norm * radius)
    end = (at[0] + right * deep, at[1] - up * deep)
    page.canvas.line(
        Pen.HIDDEN,
        (at[0] + off[0], at[1] + off[1]),
        (end[0] + off[0], end[1] + off[1]),
        (end[0] - off[0], end[1] - off[1]),
        (at[0] - off[0], at[1] - off[1]),
    )


def _cross(canvas: Canvas, at: Point, reach: float) -> None:
    x, y = at
    canvas.line(Pen.THIN, (x - reach, y), (x + reach, y))
    canvas.line(Pen.THIN, (x, y - reach), (x, y + reach))


def _letters(page: _Page, cuts: Sequence[CutMark], holes: Sequence[HoleGroup], views: PartViews) -> None:
    """A capital in the middle of each cut, a small letter beside the last hole of each group."""
    taken = Taken()
    for cut in cuts:
        x, y = page.at("main", cut.middle[0], cut.middle[1])
        taken.take(Patch((x, y), (3.0, 3.4)))
        page.canvas.text((x, y + 1.5), cut.letter, size=4.4, bold=True)
    for group in holes:
        view = next((v for v in views.edges if _axes(v, group.way)[2] < -0.5), "main")
        u, v, _ = _axes(view, group.places[-1])
        patches = _beside(page.at(view, u, v), group.diameter / 2 / page.fold.scale)
        x, y = (taken.first_free(patches) or patches[0]).middle
        page.canvas.text((x, y + 1.3), group.letter, size=4.0, bold=True)


def _beside(at: Point, radius: float) -> list[Patch]:
    """Right and above the hole first, then the other ways about it."""
    reach = radius + 2.2
    ways = [(0.9, -0.9), (0.9, 0.9), (-0.9, -0.9), (-0.9, 0.9), (1.9, -0.9), (-1.9, -0.9)]
    return [Patch((at[0] + reach * dx, at[1] + reach * dy), (2.6, 3.2)) for dx, dy in ways]


def _sizes(
    page: _Page,
    size: Vec3,
    above: Sequence[Mark],
    under: Sequence[Mark],
    sizes: Sizes,
    narrow: _NarrowEnds,
) -> None:
    canvas, (left, low), foot = page.canvas, page.zeros["main"], page.zeros["below"][1]
    high, thin = low - size[1] / page.fold.scale, foot - size[2] / page.fold.scale
    if above:
        running(canvas, left, [Mark(left + m.at, m.words) for m in above], high - 7.0, high)
    if len(under) == 1:
        across(canvas, left, left + under[0].at, foot + 7.0, foot, under[0].words)
    else:
        running(canvas, left, [Mark(left + m.at, m.words) for m in under], foot + 7.0, foot)
    beside = left - narrow.before - SIDE
    upright(canvas, low, high, beside, left, sizes.plain(size[1]))
    upright(canvas, foot, thin, beside, left, sizes.plain(size[2]))
    _narrow_sizes(page, narrow, size[0])
    canvas.text((left, low + 4.0), "end 0", size=LABEL, anchor="start", ink=QUIET)
    canvas.double_arrow((left + 11, low + 3.0), (left + 20, low + 3.0))
    canvas.text((left + 21.5, low + 4.0), "grain", size=LABEL, anchor="start", ink=QUIET)


def _narrow_sizes(page: _Page, narrow: _NarrowEnds, length: float) -> None:
    for view, span, words in narrow.spans:
        (edge, low), (_, high) = (page.at(view, length if narrow.far else 0.0, v) for v in span)
        upright(page.canvas, low, high, edge + (SIDE if narrow.far else -SIDE), edge, words)


def _once(marks: Sequence[Mark]) -> list[Mark]:
    return list({mark.words: mark for mark in marks}.values())
