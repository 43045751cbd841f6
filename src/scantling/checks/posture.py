"""Can a person sit at it and on it? Knee rooms and seats."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.examined import Examined, few_of
from scantling.checks.finding import Finding, Mend
from scantling.checks.rules import rule
from scantling.piece.model import Axis, Space

KNEES = ((Axis.WIDE, 520.0, "wide"), (Axis.DEEP, 440.0, "deep"), (Axis.HIGH, 620.0, "high"))
_MORE = {"wide": "wider", "deep": "deeper", "high": "higher"}
HAIR = 10.0  # mm short of a knee room that nobody notices; judgement
SEATS = ((400.0, 500.0), (605.0, 660.0), (705.0, 760.0))  # chair or bench, counter stool, bar stool


def posture(examined: Examined) -> Iterator[Finding]:
    """Spaces named knee room, and parts people sit on."""
    for space in examined.piece.spaces:
        if "knee" in space.name:
            yield from _knees(examined, space)
    yield from _seats(examined)


def _knees(examined: Examined, space: Space) -> Iterator[Finding]:
    short = [
        (space.box.size(axis), least, word)
        for axis, least, word in KNEES
        if space.box.size(axis) < least - HAIR
    ]
    if short:
        have = few_of([f"{examined.length(size)} {word}" for size, _, word in short])
        want = few_of([examined.length(least) for _, least, _ in short])
        size, least, word = max(short, key=lambda each: each[1] / each[0])
        yield rule("knee room").found(
            f"{space.name} is {have}; {want} is the least for knees under a desk",
            number=size,
            limit=least,
            mend=Mend(f"make it {examined.length(examined.step_up(least - size))} {_MORE[word]}"),
        )


def _seats(examined: Examined) -> Iterator[Finding]:
    floor = examined.piece.overall.low[Axis.HIGH]
    seats = {name: load.place for load in examined.piece.loads if load.kind == "sit" for name in load.on}
    heights = {examined.bounds(name).high[Axis.HIGH] - floor for name in seats}
    if not heights:
        return
    height = max(heights)
    if any(low <= height <= high for low, high in SEATS) or height < 330.0:
        return
    nearest = min((edge for span in SEATS for edge in span), key=lambda edge: abs(edge - height))
    yield rule("seat height").found(
        f"the seat is {examined.length(height)} high; chairs are {examined.length(400)} to "
        f"{examined.length(500)}, counter stools {examined.length(610)} to {examined.length(660)}",
        tuple(seats)[:1],
        height,
        limit=nearest,
        mend=Mend(f"make it {examined.length(nearest)} high"),
    )
