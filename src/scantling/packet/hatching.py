"""Hatching of rectangles by real lines, so that meaning never hangs on colour alone."""

from __future__ import annotations

from scantling.packet.canvas import Canvas, Pen, Point


def hatch(canvas: Canvas, low: Point, size: Point, step: float, *, crossed: bool = False) -> None:
    """Lines at 45 degrees through the rectangle, `step` mm apart; `crossed` adds the other way."""
    for offset in _offsets(size, step):
        canvas.line(Pen.HATCH, *_rising(low, size, offset))
    if crossed:
        for offset in _offsets(size, step):
            canvas.line(Pen.HATCH, *_falling(low, size, offset))


def _offsets(size: Point, step: float) -> list[float]:
    return [index * step for index in range(1, int((size[0] + size[1]) / step) + 1)]


def _rising(low: Point, size: Point, offset: float) -> tuple[Point, Point]:
    """The line x + y = offset inside the rectangle."""
    (x, y), (w, h) = low, size
    start, end = max(0.0, offset - h), min(offset, w)
    return (x + start, y + offset - start), (x + end, y + offset - end)


def _falling(low: Point, size: Point, offset: float) -> tuple[Point, Point]:
    first, second = _rising((0.0, 0.0), size, offset)
    (x, y), h = low, size[1]
    return (x + first[0], y + h - first[1]), (x + second[0], y + h - second[1])
