"""The shape of a board told at stations: `stations 24 gap 1/8 cup 1/16; 48 gap 1/4; end gap 0 twist 3/16`.

Each is a place from the chalked end; `gap` under a straightedge (or a taut string) that lies on both ends,
`cup` across the board there, `twist` by winding sticks against the chalked end. A minus is the other way.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from scantling.errors import ReadError
from scantling.quantity.kinds import LengthUnit
from scantling.shop.model import Board, Station
from scantling.shop.phrases import Phrase
from scantling.shop.words import AmissError, length
from scantling.wood import flattening

EXAMPLE = "write stations 24 gap 1/8 cup 1/16; 48 gap 1/4; 72 gap 1/8"

_WORD = re.compile(r"\s+(gap|cup|twist)\b", re.IGNORECASE)
_LONE = re.compile(r"(end|[\d.½¼¾][^,;]*?)\s+gap\b", re.IGNORECASE)
_STEEPEST = 0.1  # of the length: more is a slip of the pen, not a board
_APART = 1.0  # mm


def stations_of(said: Phrase, long: float, unit: LengthUnit) -> tuple[Station, ...]:
    """Each place and what was read there, in order along a board `long` mm. Raises ReadError."""
    each = list(_split(said))
    found = tuple(_station(phrase, long, unit) for phrase in each)
    for (one, two), phrase in zip(pairwise(found), each[1:], strict=True):
        if two.at < one.at + _APART:
            raise ReadError("stations run from the chalked end to the far one", phrase.place(), EXAMPLE)
    if any(s.twist is not None for s in found) and (found[-1].at < long - _APART or found[-1].twist is None):
        raise ReadError(
            "where twist is told at stations it must be told at the far end too",
            each[-1].place(),
            "add a last station such as end gap 0 twist 3/16",
        )
    return found


def refuse_lone_station(clause: Phrase) -> None:
    """Raise ReadError where a clause of a board's line is the rest of a list of stations."""
    if _LONE.match(clause.text):
        raise ReadError("stations are kept apart by semicolons, not commas", clause.place(), EXAMPLE)


def profile_of(board: Board) -> tuple[flattening.Station, ...]:
    """The whole shape of a board told at stations, end to end; () of one that is not. [mm, rad]

    The straightedge lies on both ends. What is not told at a station is read straight between those
    that tell it; cup told nowhere is the board's all along, twist told nowhere grows evenly to the board's.
    """
    if not board.stations:
        return ()
    told = _with_ends(board)
    cups = [(s.at, s.cup) for s in told if s.cup is not None] or [(0.0, board.warp.cup)]
    twists = [(s.at, s.twist) for s in told if s.twist is not None] or [(board.length, board.warp.twist)]
    if told[0].twist is None:
        twists = [(0.0, 0.0), *twists]
    return tuple(
        flattening.Station(s.at, s.gap, _at(cups, s.at), _at(twists, s.at) / board.width) for s in told
    )


def part_of(board: Board, corner: tuple[float, float], size: tuple[float, float]) -> tuple[Station, ...]:
    """Stations of a piece `size` long and wide whose near corner lay at `corner` on a board told at stations.

    Off the board's middle its twist lifts the piece's own middle, and its cup tilts it.
    """
    profile = profile_of(board)
    if not profile:
        return ()
    low, high = corner[0], min(corner[0] + size[0], board.length)
    wide = min(size[1], board.width - corner[1])
    aside = corner[1] + wide / 2 - board.width / 2
    inside = [s for s in profile if low < s.at < high]
    ends = [flattening.between_stations(profile, at) for at in (low, high)]
    return tuple(
        Station(
            s.at - low,
            s.gap + s.twist * aside + s.cup * (2 * aside / board.width) ** 2,
            s.cup * (wide / board.width) ** 2,
            (s.twist + 8 * s.cup * aside / board.width**2) * wide,
        )
        for s in (ends[0], *inside, ends[1])
    )


def _with_ends(board: Board) -> tuple[Station, ...]:
    first, last = board.stations[0], board.stations[-1]
    before = () if first.at < _APART else (Station(0.0, 0.0),)
    after = () if last.at > board.length - _APART else (Station(board.length, 0.0),)
    return (*before, *board.stations, *after)


def _at(told: Sequence[tuple[float, float]], at: float) -> float:
    """Read straight between the places told, as at the nearest beyond them."""
    return told[0][1] if at <= told[0][0] else flattening.height_at(told, min(at, told[-1][0]))


def _split(said: Phrase) -> Iterator[Phrase]:
    start = 0
    if (comma := said.text.find(",")) >= 0:
        refuse_lone_station(said.after(comma + 1))
    for stop in [*(found.start() for found in re.finditer(";", said.text)), len(said.text)]:
        phrase = said.part(start, stop)
        if not phrase.text:
            raise ReadError("a station says nothing", phrase.place(), EXAMPLE)
        yield phrase
        start = stop + 1


def _station(phrase: Phrase, long: float, unit: LengthUnit) -> Station:
    words = list(_WORD.finditer(phrase.text))
    stops = [*(w.start() for w in words[1:]), len(phrase.text)]
    told: dict[str, float] = {}
    for word, stop in zip(words, stops, strict=False):
        name = word[1].lower()
        if name in told:
            raise ReadError(f"{name} is told twice at this station", phrase.place(word.start(1)), EXAMPLE)
        told[name] = _signed(phrase.part(word.end(), stop), name, long, unit)
    if "gap" not in told:
        raise ReadError("a station wants its place and the gap there", phrase.place(), EXAMPLE)
    at = _place(phrase.part(0, words[0].start()), long, unit)
    return Station(at, told["gap"], told.get("cup"), told.get("twist"))


def _place(words: Phrase, long: float, unit: LengthUnit) -> float:
    if words.text.lower() == "end":
        return long
    at = _length(words, unit)
    if at > long + 1e-6:
        raise ReadError("this lies beyond the board", words.place(), 'the far end is written "end"')
    return at


def _signed(words: Phrase, name: str, long: float, unit: LengthUnit) -> float:
    minus = words.text.startswith(("-", "−"))
    value = _length(words.after(1) if minus else words, unit)
    if value > long * _STEEPEST:
        raise ReadError(f"no board has a {name} like this", words.place(), EXAMPLE)
    return -value if minus else value


def _length(words: Phrase, unit: LengthUnit) -> float:
    try:
        return length(words.text, unit)
    except AmissError as amiss:
        raise ReadError(amiss.message, words.place(amiss.at), EXAMPLE) from None
