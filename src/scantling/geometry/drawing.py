"""What a drawing holds: line segments and shaded regions on the paper, by part. All lengths mm.

Coordinates are real size with v upward; `svg` turns v over and scales to the paper.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.geometry.svg import Path, document, loop_path, segment_path
from scantling.geometry.view import Point2, View
from scantling.piece.model import PartName

Segment = tuple[float, float, float, float]  # u1, v1, u2, v2
Segments = tuple[Segment, ...]
Colour = tuple[int, int, int]

WIDE, NARROW = 0.5, 0.25  # mm on paper; from memory: ISO 128-2, wide : narrow = 2 : 1


@dataclass(frozen=True)
class LineDrawing:
    """Edges of parts as seen, and those that something stands before.

    `low`, `high`: corners of the box of all segments (both 0, 0 when there are none).
    """

    view: View
    visible: Mapping[PartName, Segments]
    hidden: Mapping[PartName, Segments]
    low: Point2
    high: Point2

    def paths(self, scale: float, *, ids: bool = False, wide: float = WIDE) -> tuple[Path, ...]:
        """SVG paths at `scale` (paper mm per mm): hidden dashed and narrow, then visible."""
        hidden = _line_paths(self.hidden, scale, ids, f'stroke-width="{wide / 2:g}" stroke-dasharray="2 1"')
        return hidden + _line_paths(self.visible, scale, ids, f'stroke-width="{wide:g}"')

    def svg(self, scale: float = 1.0, *, ids: bool = False, wide: float = WIDE, margin: float = 2.0) -> str:
        """The drawing as SVG text; `viewBox` in mm of paper at `scale` (0.1 for 1:10).

        `ids`: one path a part, named, instead of one a weight.
        """
        return document(self.paths(scale, ids=ids, wide=wide), self.low, self.high, scale, margin)


@dataclass(frozen=True, slots=True)
class Region:
    """A visible piece of one face of `part`: outer loops anticlockwise, holes clockwise."""

    part: PartName
    colour: Colour
    loops: tuple[tuple[Point2, ...], ...]
    lit: bool = True


@dataclass(frozen=True)
class ShadedPicture:
    """Regions that do not overlap and fill the silhouette, and the visible edges over them."""

    view: View
    regions: tuple[Region, ...]
    lines: LineDrawing | None
    low: Point2
    high: Point2

    def svg(self, scale: float = 1.0, *, ids: bool = False, wide: float = NARROW, margin: float = 2.0) -> str:
        """The picture as SVG text; `viewBox` in mm of paper at `scale`. `ids`: a path a part and colour."""
        lines = self.lines.paths(scale, ids=False, wide=wide) if self.lines else ()
        return document(self._fills(scale, ids) + lines, self.low, self.high, scale, margin)

    def _fills(self, scale: float, ids: bool) -> tuple[Path, ...]:
        groups: dict[tuple[str, Colour], list[Region]] = {}
        for region in self.regions:
            groups.setdefault((region.part if ids else "", region.colour), []).append(region)
        return tuple(
            Path(
                "".join(loop_path(loop, scale) for region in regions for loop in region.loops),
                # A hair of stroke in the same colour closes the seams that viewers leave between fills.
                f'fill="{hexed(colour)}" stroke="{hexed(colour)}" stroke-width="0.1"',
                part,
            )
            for (part, colour), regions in groups.items()
        )


def hexed(colour: Colour) -> str:
    """(128, 96, 64) -> "#806040"."""
    return "#{:02x}{:02x}{:02x}".format(*colour)


def _line_paths(lines: Mapping[PartName, Segments], scale: float, ids: bool, style: str) -> tuple[Path, ...]:
    style = f'fill="none" stroke="#1a1a1a" stroke-linecap="round" {style}'
    if ids:
        return tuple(Path(segment_path(s, scale), style, part) for part, s in lines.items() if s)
    every = tuple(segment for segments in lines.values() for segment in segments)
    return (Path(segment_path(every, scale), style, ""),) if every else ()
