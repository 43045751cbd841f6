"""How far a board may be from what was read of it: seeded draws. All mm.

Spreads are standard deviations; all of them common practice, no source, but for the shape of the bend, which
is worked out: a blank l long of a board L long that bends evenly has (l/L)² of its bow, one that lies over a
single kink l/L of it; even twist gives l/L of it, twist in one half of the board up to twice that.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scantling.cutting.milling import timber_of
from scantling.shop.model import Board, BoardForSale, Surface

Floats = NDArray[np.float64]

THICKNESS_ROUGH, THICKNESS_SURFACED = 0.6, 0.2  # a rough board differs that much along itself
GAP = 0.5  # reading of a gap under a straightedge or over winding sticks
CUP = 0.3
WIDTH, LENGTH = 1.0, 2.0  # a tape on a ragged edge, a tape on a rough end
UNEVEN = 0.5  # share of boards that do not bend evenly
SPREAD = 0.5  # of the logarithm of the warp of a board not seen yet
CHOSEN_FROM = 3  # boards at the yard of which the straightest is taken


@dataclass(frozen=True)
class Spread:
    """How wide readings spread; a share of the usual, 0 for boards that are just as they were read."""

    share: float = 1.0


@dataclass(frozen=True)
class Drawn:
    """Boards as they may be, one a draw.

    `bend`: power of l/L that the bow of a blank goes by; `turn`: times l/L that its twist is.
    """

    length: Floats
    width: Floats
    thickness: Floats
    bow: Floats
    crook: Floats
    cup: Floats
    twist: Floats
    bend: Floats
    turn: Floats


def drawn(board: Board | BoardForSale, name: str, seed: int, samples: int, spread: Spread) -> Drawn:
    """So many draws of a board; the same for the same seed and name, whatever other boards there are."""
    random = np.random.default_rng([seed, zlib.crc32(name.encode())])
    timber = timber_of(board)
    surfaced = timber.surface in (Surface.TWO_FACES, Surface.FOUR_SIDES)
    thick = THICKNESS_SURFACED if surfaced else THICKNESS_ROUGH

    def about(value: float, error: float) -> Floats:
        return np.maximum(value + spread.share * error * random.standard_normal(samples), 0.0)

    size = (about(timber.length, LENGTH), about(timber.width, WIDTH), about(timber.thickness, thick))
    uneven = (random.random(samples) < UNEVEN) * (spread.share > 0)
    bend, turn = 2.0 - uneven * random.random(samples), 1.0 + uneven * random.random(samples)
    warp = timber.warp
    if isinstance(board, Board):
        read = (about(warp.bow, GAP), about(warp.crook, GAP), about(warp.cup, CUP), about(warp.twist, GAP))
    else:
        worse = _straightest(random, samples, spread)
        read = (warp.bow * worse, warp.crook * worse, warp.cup * worse, warp.twist * worse)
    return Drawn(*size, *read, bend, turn)


def _straightest(random: np.random.Generator, samples: int, spread: Spread) -> Floats:
    """Warp of the straightest of a few boards at the yard, as a share of the usual."""
    each: Floats = np.exp(spread.share * SPREAD * random.standard_normal((CHOSEN_FROM, samples)))
    return np.asarray(each.min(axis=0))
