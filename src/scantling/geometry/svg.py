"""Compact SVG text: whole hundredths of a millimetre, relative moves, y downward."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from xml.sax.saxutils import quoteattr

Point2 = tuple[float, float]
Spot = tuple[int, int]  # hundredths of a millimetre, y downward


@dataclass(frozen=True, slots=True)
class Path:
    """Path data, its style attributes, and the part it belongs to ("" for none)."""

    data: str
    style: str
    part: str


def document(paths: Iterable[Path], low: Point2, high: Point2, scale: float, margin: float) -> str:
    """An SVG document whose `viewBox` covers `low` to `high` (drawing's frame) with a margin. [mm paper]"""
    left, top = low[0] * scale - margin, -high[1] * scale - margin
    wide = (high[0] - low[0]) * scale + 2 * margin
    tall = (high[1] - low[1]) * scale + 2 * margin
    box = f"{_number(left)} {_number(top)} {_number(wide)} {_number(tall)}"
    size = f'width="{_number(wide)}mm" height="{_number(tall)}mm"'
    body = "".join(_element(path) for path in paths if path.data)
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" {size}>{body}</svg>'


def segment_path(segments: Iterable[tuple[float, float, float, float]], scale: float) -> str:
    """Path data of loose segments, strung together where they meet so that dashes run on."""
    whole = [(_spot(u1, v1, scale), _spot(u2, v2, scale)) for u1, v1, u2, v2 in segments]
    return "".join(_open_path(chain) for chain in _chains([pair for pair in whole if pair[0] != pair[1]]))


def _chains(pairs: list[tuple[Spot, Spot]]) -> list[list[Spot]]:
    """Runs of segments end to end, in the order in which their first ones come."""
    at: dict[Spot, list[int]] = {}
    for i, ends in enumerate(pairs):
        for end in ends:
            at.setdefault(end, []).append(i)
    used = [False] * len(pairs)
    chains = []
    for i, (start, end) in enumerate(pairs):
        if not used[i]:
            used[i] = True
            ahead = _followed(end, at, pairs, used)
            chains.append([*reversed(_followed(start, at, pairs, used)), *ahead])
    return chains


def _followed(
    spot: Spot, at: dict[Spot, list[int]], pairs: list[tuple[Spot, Spot]], used: list[bool]
) -> list[Spot]:
    run = [spot]
    while True:
        ahead = next((i for i in at[spot] if not used[i]), None)
        if ahead is None:
            return run
        used[ahead] = True
        first, last = pairs[ahead]
        spot = last if first == spot else first
        run.append(spot)


def _open_path(chain: list[Spot]) -> str:
    steps = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(chain)]
    return f"M{_pair(chain[0])}l" + " ".join(_pair(step) for step in steps)


def loop_path(loop: Iterable[Point2], scale: float) -> str:
    """Path data of one closed loop; empty when it shrinks to a line on the paper."""
    spots = [_spot(u, v, scale) for u, v in loop]
    spots = [spot for spot, before in zip(spots, [spots[-1], *spots[:-1]], strict=True) if spot != before]
    if len(spots) < 3:
        return ""
    return _open_path(spots) + "z"


def _element(path: Path) -> str:
    part = f" data-part={quoteattr(path.part)}" if path.part else ""
    return f'<path{part} {path.style} d="{path.data}"/>'


def _spot(u: float, v: float, scale: float) -> Spot:
    return (round(u * scale * 100), round(-v * scale * 100))


def _pair(spot: Spot) -> str:
    return f"{_number(spot[0] / 100)} {_number(spot[1] / 100)}"


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".").replace("-0.", "-.") or "0"
