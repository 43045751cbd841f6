"""What is written on the pieces of a cut drawing: mark, size and grain, where nothing else stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.packet.canvas import Canvas, Point, text_width
from scantling.packet.places import Patch, Taken

MARK = 4.4
SIZE = 3.5
SMALLEST = 2.6  # mm of lettering; a piece too small for it is found by its place in the table
INSET = 0.4
ARROWS = (9.0, 6.0)
# Shares of a piece's length at which the middle of its label may lie, best first.
WISHES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)


@dataclass(frozen=True, slots=True)
class Leaf:
    """A piece left over after the last saw cut, on paper. `corner`: upper left. [mm]"""

    corner: Point
    room: Point

    @property
    def middle(self) -> Point:
        return (self.corner[0] + self.room[0] / 2, self.corner[1] + self.room[1] / 2)

    def holds(self, patch: Patch) -> bool:
        """Whether the patch lies inside, a little off the edges."""
        (x, y), (w, h) = self.corner, self.room
        return patch.within((x + INSET, y + INSET), (w - 2 * INSET, h - 2 * INSET))


@dataclass(frozen=True, slots=True)
class _Line:
    """Words of one size, written with their middle `off` the label's: (along, down)."""

    words: str
    size: float
    bold: bool
    off: Point


@dataclass(frozen=True, slots=True)
class _Label:
    lines: tuple[_Line, ...]
    room: Point


def write_label(canvas: Canvas, taken: Taken, leaf: Leaf, words: str, size: str, *, halo: bool) -> None:
    """Mark and size together where both fit, else the mark alone, upright on a narrow piece."""
    for turned in (False, True):
        for label in _labels(words, size):
            patch = taken.first_free(_wishes(leaf, label.room, turned))
            if patch:
                _write(canvas, patch.middle, label, turned, halo)
                return


def _labels(words: str, size: str) -> Iterator[_Label]:
    """Two lines, one line, the mark alone; then the same smaller."""
    for share in (1.0, 0.8, SMALLEST / SIZE):
        mark, small = MARK * share, SIZE * share
        first, second = text_width(words, mark), text_width(size, small)
        yield _Label(
            (
                _Line(words, mark, True, (0.0, -mark * 0.55)),
                _Line(size, small, False, (0.0, small * 0.7)),
            ),
            (max(first, second), (mark + small) * 1.15),
        )
        gap = 2.5
        whole = first + gap + second
        yield _Label(
            (
                _Line(words, mark, True, ((first - whole) / 2, 0.0)),
                _Line(size, small, False, ((whole - second) / 2, 0.0)),
            ),
            (whole, mark),
        )
    for mark in (MARK, MARK * 0.8, SMALLEST):
        yield _Label((_Line(words, mark, True, (0.0, 0.0)),), (text_width(words, mark), mark))


def _wishes(leaf: Leaf, room: Point, turned: bool) -> Iterator[Patch]:
    wide, high = (room[1], room[0]) if turned else room
    (x, y), (w, h) = leaf.corner, leaf.room
    for share in WISHES:
        middle = (leaf.middle[0], y + h * share) if turned else (x + w * share, leaf.middle[1])
        patch = Patch(middle, (wide, high))
        if leaf.holds(patch):
            yield patch


def _write(canvas: Canvas, middle: Point, label: _Label, turned: bool, halo: bool) -> None:
    for line in label.lines:
        along, down = line.off[0], line.off[1] + line.size * 0.34
        at = (middle[0] + down, middle[1] - along) if turned else (middle[0] + along, middle[1] + down)
        turn = -90.0 if turned else 0.0
        canvas.text(at, line.words, size=line.size, turn=turn, bold=line.bold, halo=halo)


def draw_grain(canvas: Canvas, taken: Taken, leaf: Leaf, turned: bool) -> None:
    """A double arrow along the grain in a free corner, or beside the label on a narrow piece."""
    for length in ARROWS:
        patch = taken.first_free(_arrow_wishes(leaf, length, turned))
        if patch:
            (x, y), (w, h) = patch.middle, patch.size
            if turned:
                canvas.double_arrow((x, y + h / 2), (x, y - h / 2))
            else:
                canvas.double_arrow((x - w / 2, y), (x + w / 2, y))
            return


def _arrow_wishes(leaf: Leaf, length: float, turned: bool) -> Iterator[Patch]:
    (x, y), (w, h) = leaf.corner, leaf.room
    wide, high = (2.0, length) if turned else (length, 2.0)
    for down in (h - 1.2 - high / 2, h / 2, 1.2 + high / 2):
        for over in (2.0 + wide / 2, w - 2.0 - wide / 2):
            patch = Patch((x + over, y + down), (wide, high))
            if leaf.holds(patch):
                yield patch
