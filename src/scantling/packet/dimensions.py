"""Dimension lines: extension lines, terminators, running sizes from one datum, no two numbers touching.

Distances follow the usual drawing rules: first line 10 mm from the outline and 7 mm apart (textbook
practice on ISO 129); oblique strokes as terminators; extension lines start clear of the outline and run
2 mm past. All on paper, in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.packet.canvas import Canvas, Pen, Point, text_width

TEXT = 3.8  # digits 2.5 mm tall in the shipped face: the least of ISO 3098-1 (from memory)
FIRST = 9.0
NEXT = 6.5
GAP = 1.2
PAST = 2.0
APART = TEXT * 1.35  # between the lines of neighbouring numbers, so that each reads alone


@dataclass(frozen=True, slots=True)
class Mark:
    """One running size: where it falls on paper and the number written there."""

    at: float
    words: str


def across(canvas: Canvas, low: float, high: float, y: float, edge: float, words: str) -> None:
    """A level dimension between x = low and high, drawn at `y`, measured from the outline at `edge`."""
    _extension(canvas, [(low, edge), (low, y)])
    _extension(canvas, [(high, edge), (high, y)])
    _stroke(canvas, (low, y))
    _stroke(canvas, (high, y))
    if text_width(words, TEXT) + 1 < high - low:
        canvas.line(Pen.THIN, (low, y), (high, y))
        canvas.text(((low + high) / 2, y - 1.0), words, size=TEXT)
        return
    canvas.line(Pen.THIN, (low - 3, y), (high + 3 + text_width(words, TEXT), y))
    canvas.text((high + 2.5, y - 1.0), words, size=TEXT, anchor="start")


def upright(canvas: Canvas, low: float, high: float, x: float, edge: float, words: str) -> None:
    """An upright dimension between y = low and high, drawn at `x`, read from the right."""
    _extension(canvas, [(edge, low), (x, low)])
    _extension(canvas, [(edge, high), (x, high)])
    _stroke(canvas, (x, low))
    _stroke(canvas, (x, high))
    top, bottom = min(low, high), max(low, high)
    if text_width(words, TEXT) + 1 < bottom - top:
        canvas.line(Pen.THIN, (x, top), (x, bottom))
        canvas.text((x - 1.0, (top + bottom) / 2), words, size=TEXT, turn=-90)
        return
    canvas.line(Pen.THIN, (x, top - 3), (x, bottom + 3))
    outward = 1 if x > edge else -1
    anchor = "start" if outward > 0 else "end"
    canvas.text((x + 1.2 * outward, (top + bottom) / 2 + TEXT * 0.35), words, size=TEXT, anchor=anchor)


def running(canvas: Canvas, zero: float, marks: Sequence[Mark], y: float, edge: float) -> None:
    """Sizes from one datum end, written upright at their extension lines, spread so that none touch."""
    ordered = sorted(marks, key=lambda mark: mark.at)
    places = spread([zero, *(mark.at for mark in ordered)], APART)
    words = ["0", *(mark.words for mark in ordered)]
    down = 1 if y > edge else -1
    canvas.line(Pen.THIN, (zero, y), (max([zero, *(m.at for m in ordered)]), y))
    canvas.circle((zero, y), 0.9, pen=Pen.THIN)
    for true, place, word in zip([zero, *(m.at for m in ordered)], places, words, strict=True):
        canvas.line(Pen.THIN, (true, edge + GAP * down), (true, y), (place, y + 3 * down))
        if true != zero:
            _arrow(canvas, (true, y))
        anchor = "end" if down > 0 else "start"
        canvas.text((place + TEXT * 0.34, y + 3.8 * down), word, size=TEXT, anchor=anchor, turn=-90)


def running_up(canvas: Canvas, zero: float, marks: Sequence[Mark], x: float, edge: float) -> None:
    """Heights from one level (paper y = `zero`, upward), written level, outside of `x`."""
    ordered = sorted(marks, key=lambda mark: -mark.at)
    trues = [zero, *(mark.at for mark in ordered)]
    places = [-place for place in spread([-y for y in trues], APART)]
    out = 1 if x > edge else -1
    canvas.line(Pen.THIN, (x, zero), (x, min(trues)))
    canvas.circle((x, zero), 0.9, pen=Pen.THIN)
    for true, place, word in zip(trues, places, ["0", *(m.words for m in ordered)], strict=True):
        canvas.line(Pen.THIN, (edge + GAP * out, true), (x, true), (x + 3 * out, place))
        if true != zero:
            canvas.line(Pen.THIN, (x - 0.45, true + 2.0), (x, true), (x + 0.45, true + 2.0))
        anchor = "start" if out > 0 else "end"
        canvas.text((x + 3.8 * out, place + TEXT * 0.34), word, size=TEXT, anchor=anchor)


def spread(places: Sequence[float], least: float) -> list[float]:
    """Ordered places moved as little as is needed to stand `least` apart.

    Pools neighbours that would touch and centres each pool on the mean of its wishes.
    """
    pools: list[list[float]] = []  # wishes less their offset in the pool
    for place in places:
        pools.append([place])
        while len(pools) > 1 and _end(pools[-2], least) > _start(pools[-1]) - 1e-9:
            last = pools.pop()
            offset = len(pools[-1]) * least
            pools[-1].extend(wish - offset for wish in last)
    return [_start(pool) + index * least for pool in pools for index in range(len(pool))]


def running_room(marks: Sequence[Mark]) -> float:
    """Paper height a row of running sizes needs beyond its line. [mm]"""
    return 4.5 + max((text_width(mark.words, TEXT) for mark in marks), default=0.0)


def _start(pool: list[float]) -> float:
    return sum(pool) / len(pool)


def _end(pool: list[float], least: float) -> float:
    return _start(pool) + len(pool) * least


def _extension(canvas: Canvas, ends: list[Point]) -> None:
    (ax, ay), (bx, by) = ends
    dx, dy = _toward(ax, bx), _toward(ay, by)
    canvas.line(Pen.THIN, (ax + GAP * dx, ay + GAP * dy), (bx + PAST * dx, by + PAST * dy))


def _toward(a: float, b: float) -> int:
    return (b > a) - (b < a)


def _stroke(canvas: Canvas, at: Point) -> None:
    x, y = at
    canvas.line(Pen.EDGE, (x - 1.0, y + 1.0), (x + 1.0, y - 1.0))


def _arrow(canvas: Canvas, at: Point) -> None:
    x, y = at
    canvas.line(Pen.THIN, (x - 2.0, y - 0.45), (x, y), (x - 2.0, y + 0.45))
