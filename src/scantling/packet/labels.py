"""Labels for the parts: mark, name, size, where it comes from and where it goes, and a code to scan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from io import BytesIO
from typing import TYPE_CHECKING

import segno

from scantling.cutting.cut_plan import StockLayout
from scantling.geometry import Region
from scantling.joinery.features import MachinedPart
from scantling.packet.canvas import Canvas, Pen, Point
from scantling.packet.context import Context, context_of
from scantling.packet.label_grids import Grid
from scantling.packet.part_words import SAME, thickness_width_length
from scantling.packet.pictures import draw_lines
from scantling.packet.shown import bound
from scantling.piece.model import MaterialKind, PartName
from scantling.quantity import listed
from scantling.quantity.kinds import LengthUnit

if TYPE_CHECKING:
    from scantling.plan import Plan

Data = dict[str, object]
LONGEST_IN_CODE = 60  # letters of a name: more makes the code too fine for a phone
ROOM = (30.0, 30.0)  # mm of paper for the small picture
PALE, DARK = "#e4e4e4", "#3a3a3a"


def labels_data(plan: Plan, grid: Grid, units: LengthUnit | None = None, start: int = 1) -> Data:
    """One label a part, in the order of item numbers, laid on sheets as `grid` says.

    `start`: the first free label of the first sheet, counted from 1 along the rows.
    """
    context = context_of(plan, units)
    whole = _Whole(context)
    parts = [part for item in context.items.items for part in item.parts]
    labels = [_label(part, context, whole) for part in parts]
    return {
        "title": f"Labels for {plan.piece.name}",
        "piece": plan.piece.name,
        "whole": whole.svg,
        "picture": list(whole.room),
        "sheets": _sheets(labels, grid, start - 1),
        "sheet": list(grid.sheet),
        "label": list(grid.label),
        "lines": grid.lines,
    }


def _sheets(labels: list[Data], grid: Grid, skipped: int) -> list[list[Data]]:
    """Labels by sheet, each with the corner it stands at."""
    sheets: list[list[Data]] = []
    for index, label in enumerate(labels, start=skipped):
        if index % grid.count == 0 or not sheets:
            sheets.append([])
        sheets[-1].append(label | {"at": list(grid.corner(index))})
    return sheets


def _label(machined: MachinedPart, context: Context, whole: _Whole) -> Data:
    part, sizes = machined.part, context.sizes
    mark = context.items.marks[part.name]
    size = f"{sizes.three(thickness_width_length(part, part.box))} {'in' if sizes.inches else 'mm'}"
    return {
        "mark": mark,
        "name": part.name,
        "size": bound(size.replace(" ×", "\u00a0×")),
        "cut": bound(_as_cut(machined, context)),
        "stock": stock_words(context, part.name),
        "spot": whole.spot(part.name),
        "code": code(f"{context.plan.piece.name}: {mark} {part.name[:LONGEST_IN_CODE]}, {size}"),
    }


def _as_cut(machined: MachinedPart, context: Context) -> str:
    """Length and width to cut where what goes into joints makes them more than the size that shows."""
    part, sizes = machined.part, context.sizes
    overall, wide = machined.true_overall_length, machined.cut_box.size(part.width_axis)
    found = [
        f"{sizes.plain(overall)} long" if abs(overall - part.length) >= SAME else "",
        f"{sizes.plain(wide)} wide" if abs(wide - part.width) >= SAME else "",
    ]
    words = " and ".join(filter(None, found))
    return f"cut {words}" if words else ""


def stock_words(context: Context, part: PartName) -> str:
    """What it is cut from: "board W4", "boards W4 and W5", "sheet P1"; empty where nothing gives it."""
    plan = context.plan.cut_plan
    layouts = {placed.blank: layout for layout in plan.layouts for placed in layout.placed}
    found = [layouts[blank.id] for blank in plan.blanks if blank.part == part and blank.id in layouts]
    names = tuple(dict.fromkeys(layout.stock for layout in found))
    return f"{_noun(found)}{'s' if len(names) > 1 else ''} {listed(names)}" if names else ""


def _noun(layouts: Iterable[StockLayout]) -> str:
    kinds = {layout.kind for layout in layouts}
    nouns = {MaterialKind.SOLID: "board", MaterialKind.SHEET: "sheet", MaterialKind.LUMBER: "stick"}
    return nouns[kinds.pop()] if len(kinds) == 1 else "piece"


class _Whole:
    """The piece as a pale picture that every label shares, and the place of each part on it."""

    def __init__(self, context: Context) -> None:
        self._gallery = context.gallery
        picture = self._gallery.at_rest()
        (left, bottom), (right, top) = picture.low, picture.high
        self.scale = max((right - left) / ROOM[0], (top - bottom) / ROOM[1], 1e-6)
        self.room: Point = ((right - left) / self.scale, (top - bottom) / self.scale)
        self.zero: Point = (-left / self.scale, top / self.scale)

    @cached_property
    def svg(self) -> str:
        canvas = Canvas(*self.room)
        picture = self._gallery.at_rest()
        self._fill(canvas, picture.regions, PALE)
        if picture.lines:
            draw_lines(canvas, picture.lines, self.zero, self.scale, Pen.HATCH, Pen.NONE)
        return canvas.svg("The whole piece")

    def spot(self, part: PartName) -> str:
        """The part alone on the same paper: filled where it is seen, else its edges, dashed."""
        canvas = Canvas(*self.room)
        seen = [region for region in self._gallery.at_rest().regions if region.part == part]
        self._fill(canvas, seen, DARK)
        alone = None if seen else self._gallery.at_rest([part]).lines
        if alone:
            draw_lines(canvas, alone, self.zero, self.scale, Pen.HIDDEN, Pen.NONE)
        return canvas.svg(f"Where {part} goes")

    def _fill(self, canvas: Canvas, regions: Sequence[Region], colour: str) -> None:
        loops = [[self._paper(point) for point in loop] for region in regions for loop in region.loops]
        canvas.shape(loops, colour)

    def _paper(self, point: Point) -> Point:
        return self.zero[0] + point[0] / self.scale, self.zero[1] - point[1] / self.scale


def code(words: str) -> str:
    """Words as a square code that a phone reads, as SVG."""
    stream = BytesIO()
    made = segno.make(words, error="m", micro=False, boost_error=False)
    made.save(stream, kind="svg", xmldecl=False, omitsize=True, nl=False, svgclass=None, lineclass=None)
    return stream.getvalue().decode()
