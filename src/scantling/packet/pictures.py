"""Shaded pictures of the piece: painting, fading what is not meant, and a spot to point at on each part."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from scantling.geometry import LineDrawing, Region, Scene, ShadedPicture, View, line_drawing, shaded_picture
from scantling.packet.canvas import Canvas, Pen, Point
from scantling.piece.model import PartName, Placement

FADE = 0.72  # share of white in what was there before
Colour = tuple[int, int, int]
CORNER = View.named("corner")


def paint(
    canvas: Canvas,
    picture: ShadedPicture,
    zero: Point,
    scale: float,
    fresh: Collection[PartName] | None = None,
) -> None:
    """Paint a picture with its frame's zero at `zero`, `scale` mm of piece to one on paper.

    `fresh`: parts in full tone; others fade. None: all in full tone.
    """
    groups: dict[Colour, list[Region]] = {}
    for region in picture.regions:
        whole = fresh is None or region.part in fresh
        groups.setdefault(region.colour if whole else faded(region.colour), []).append(region)
    for colour, regions in groups.items():
        loops = [[_paper(p, zero, scale) for p in loop] for region in regions for loop in region.loops]
        canvas.shape(loops, "#{:02x}{:02x}{:02x}".format(*colour))
    if picture.lines:
        draw_lines(canvas, picture.lines, zero, scale, Pen.PICTURE, Pen.NONE)


def draw_lines(
    canvas: Canvas, lines: LineDrawing, zero: Point, scale: float, visible: Pen, hidden: Pen = Pen.HIDDEN
) -> None:
    """A line drawing with its zero at `zero`; Pen.NONE leaves hidden edges out."""
    for pen, by_part in ((hidden, lines.hidden), (visible, lines.visible)):
        if pen is Pen.NONE:
            continue
        for segments in by_part.values():
            canvas.segments(
                pen, ((_paper((a, b), zero, scale), _paper((c, d), zero, scale)) for a, b, c, d in segments)
            )


def view_lines(scene: Scene, view: View) -> LineDrawing:
    """The assembled piece without dowel holes; hidden edges left to the part sheets."""
    return line_drawing(scene, view, holes=False, hidden=False)


@dataclass(frozen=True, eq=False)
class Gallery:
    """Shaded pictures from the right, above: the view every picture of a packet shares.

    Each set of parts at rest is drawn once, however many steps show it.
    """

    scene: Scene
    _drawn: dict[frozenset[PartName], ShadedPicture] = field(default_factory=dict)

    def at_rest(self, parts: Iterable[PartName] | None = None) -> ShadedPicture:
        """The named parts where they stand; all of them when none are named."""
        wanted = frozenset(self.scene.solids if parts is None else parts)
        if wanted not in self._drawn:
            self._drawn[wanted] = shaded_picture(self.scene, CORNER, parts=wanted)
        return self._drawn[wanted]

    def moved(self, placements: Mapping[PartName, Placement]) -> ShadedPicture:
        """Every part, moved."""
        return shaded_picture(self.scene, CORNER, placements=placements)


def faded(colour: Colour) -> Colour:
    """Mixed with white."""
    red, green, blue = (round(value + (255 - value) * FADE) for value in colour)
    return (red, green, blue)


def spot_on(picture: ShadedPicture, part: PartName) -> Point | None:
    """A point well inside the largest visible region of a part, picture's frame; None if unseen."""
    regions = [region for region in picture.regions if region.part == part]
    if not regions:
        return None
    best = max(regions, key=_region_area)
    return _inside(best.loops)


def seen_area(picture: ShadedPicture, part: PartName) -> float:
    """How much of a part is seen. [mm²]"""
    return sum(_region_area(region) for region in picture.regions if region.part == part)


def _paper(point: Point, zero: Point, scale: float) -> Point:
    return (zero[0] + point[0] / scale, zero[1] - point[1] / scale)


def _region_area(region: Region) -> float:
    return sum(_signed_area(loop) for loop in region.loops)


def _signed_area(loop: Sequence[Point]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(loop, [*loop[1:], loop[0]], strict=True)) / 2


def _inside(loops: Sequence[Sequence[Point]]) -> Point:
    """The middle of the longest level chord among a few heights."""
    vs = [v for loop in loops for _, v in loop]
    low, high = min(vs), max(vs)
    chords = []
    for step in (0.5, 0.35, 0.65, 0.2, 0.8):
        v = low + (high - low) * step + 1e-6
        us = sorted(u for loop in loops for u in _crossings(loop, v))
        chords += [(b - a, (a + b) / 2, v) for a, b in zip(us[::2], us[1::2], strict=False)]
    _, u, v = max(chords, default=(0.0, loops[0][0][0], loops[0][0][1]), key=lambda chord: chord[0])
    return (u, v)


def _crossings(loop: Sequence[Point], v: float) -> list[float]:
    found = []
    for (u1, v1), (u2, v2) in zip(loop, [*loop[1:], loop[0]], strict=True):
        if (v1 <= v) != (v2 <= v):
            found.append(u1 + (u2 - u1) * (v - v1) / (v2 - v1))
    return found
