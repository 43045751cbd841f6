"""A small drawing surface that becomes SVG: pens, fills, text with fractions and a halo.

Coordinates are paper millimetres, y downward. Lines of one pen that follow one another share one
`<path>`, which keeps files small. No style attributes, so that a strict content policy holds.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import Enum
from xml.sax.saxutils import escape, quoteattr

Point = tuple[float, float]

FONT = "'Source Sans 3', Helvetica, Arial, sans-serif"
INK = "#1c1a17"
QUIET = "#6b645a"
# A width in em that is enough for any digit of the shipped face; measured on its widths (497/1000).
DIGIT_WIDTH = 0.52
FRACTION = re.compile(r"(?<![\d/])(\d+)/(\d+)(?![\d/])")


class Pen(Enum):
    """Line kinds: width mm, dash pattern, colour. Wide to narrow 2 : 1 (ISO 128-2, from memory)."""

    OUTLINE = (0.5, "", INK)
    PICTURE = (0.25, "", INK)
    EDGE = (0.3, "", INK)
    THIN = (0.2, "", INK)
    HIDDEN = (0.22, "1.6 0.9", INK)
    HATCH = (0.13, "", QUIET)
    QUIET = (0.18, "", QUIET)
    SAW = (0.7, "", INK)
    NONE = (0.0, "", "none")

    @property
    def attributes(self) -> str:
        width, dash, colour = self.value
        if self is Pen.NONE:
            return 'stroke="none"'
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        return f'stroke="{colour}" stroke-width="{width}"{dashed}'


@dataclass
class Canvas:
    """Collects strokes in painting order. `width` x `height` in paper mm."""

    width: float
    height: float
    _items: list[str] = field(default_factory=list)
    _pen: Pen | None = None
    _run: list[str] = field(default_factory=list)

    def line(self, pen: Pen, *points: Point, closed: bool = False) -> None:
        """An open or closed polyline without filling."""
        if self._pen is not pen:
            self._flush()
            self._pen = pen
        self._run.append(path_data(points, closed))

    def segments(self, pen: Pen, segments: Iterable[tuple[Point, Point]]) -> None:
        for first, second in segments:
            self.line(pen, first, second)

    def area(self, points: Sequence[Point], fill: str, pen: Pen = Pen.NONE) -> None:
        """A filled polygon."""
        self._put(f'<path d="{path_data(points, True)}" fill="{fill}" {pen.attributes}/>')

    def shape(self, loops: Iterable[Sequence[Point]], fill: str) -> None:
        """A filled shape with holes; a hair of stroke in its colour closes seams between neighbours."""
        data = "".join(path_data(loop, True) for loop in loops)
        self._put(f'<path d="{data}" fill="{fill}" stroke="{fill}" stroke-width="0.1"/>')

    def double_arrow(self, first: Point, second: Point) -> None:
        """A thin level or upright line with an open head at both ends: the way the grain runs."""
        self.line(Pen.THIN, first, second)
        level = first[1] == second[1]
        for (x, y), way in ((first, 1.5), (second, -1.5)):
            head = [(way, -0.7), (0.0, 0.0), (way, 0.7)] if level else [(-0.7, -way), (0.0, 0.0), (0.7, -way)]
            self.line(Pen.THIN, *((x + dx, y + dy) for dx, dy in head))

    def rectangle(self, low: Point, size: Point, *, fill: str = "none", pen: Pen = Pen.NONE) -> None:
        (x, y), (w, h) = low, size
        self.area([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], fill, pen)

    def circle(self, centre: Point, radius: float, *, fill: str = "none", pen: Pen = Pen.EDGE) -> None:
        x, y = number(centre[0]), number(centre[1])
        self._put(f'<circle cx="{x}" cy="{y}" r="{number(radius)}" fill="{fill}" {pen.attributes}/>')

    def text(
        self,
        at: Point,
        words: str,
        *,
        size: float = 3.4,
        anchor: str = "middle",
        turn: float = 0.0,
        bold: bool = False,
        ink: str = INK,
        halo: bool = True,
    ) -> None:
        """Words with their baseline through `at`; `turn` in degrees, -90 reads from the right."""
        x, y = number(at[0]), number(at[1])
        turned = f' transform="rotate({number(turn)} {x} {y})"' if turn else ""
        around = f' stroke="#fff" stroke-width="{number(size * 0.36)}" paint-order="stroke"' if halo else ""
        weight = ' font-weight="600"' if bold else ""
        self._put(
            f'<text x="{x}" y="{y}" font-size="{number(size)}" text-anchor="{anchor}" fill="{ink}"'
            f'{weight}{around}{turned} stroke-linejoin="round">{with_fractions(words, size)}</text>'
        )

    def svg(self, title: str) -> str:
        """The whole picture; `title` is what a screen reader says."""
        self._flush()
        w, h = number(self.width), number(self.height)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}" '
            f'role="img" aria-label={quoteattr(title)} font-family="{FONT}" stroke-linecap="round" '
            f'stroke-linejoin="round">{"".join(self._items)}</svg>'
        )

    def _put(self, markup: str) -> None:
        self._flush()
        self._items.append(markup)

    def _flush(self) -> None:
        if self._pen is not None and self._run:
            self._items.append(f'<path d="{"".join(self._run)}" fill="none" {self._pen.attributes}/>')
        self._pen, self._run = None, []


def number(value: float) -> str:
    """Two decimals at most, without trailing zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def path_data(points: Iterable[Point], closed: bool) -> str:
    """SVG path commands for a polyline."""
    corners = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{corners}{'Z' if closed else ''}"


def with_fractions(words: str, size: float) -> str:
    """Escaped words in which every fraction has a small raised numerator.

    The whole number before a fraction stays at full size: "52 1/4" can't be read as 521/4.
    """
    small, lift = number(size * 0.72), number(size * 0.3)

    def fraction(match: re.Match[str]) -> str:
        top, bottom = match.groups()
        return (
            f'<tspan font-size="{small}" dy="-{lift}">{top}</tspan><tspan dy="{lift}">/</tspan>'
            f'<tspan font-size="{small}">{bottom}</tspan>'
        )

    return FRACTION.sub(fraction, escape(words))


def text_width(words: str, size: float) -> float:
    """Room the words need on paper, a little generous. [mm]"""
    narrow = sum(len(m.group(1)) + len(m.group(2)) for m in FRACTION.finditer(words))
    capitals = sum(1 for letter in words if letter.isupper())
    return size * (DIGIT_WIDTH * (len(words) - 0.28 * narrow) + 0.12 * capitals)
