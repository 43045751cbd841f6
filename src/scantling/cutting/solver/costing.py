"""What a filled bin uses up: its area less the leftovers worth keeping, and something for each opened bin
and each strip of a panel.
"""

from __future__ import annotations

from scantling.cutting.solver.bin import Bin, free_lengths, free_widths
from scantling.cutting.solver.problem import SCALE, Stock

STRIP = 40 * SCALE  # a strip more in a panel is a glue line more: worth this much width
OPENED = 60_000 * SCALE**2  # area that breaking into one more bin weighs: carried, cut and flattened
WORTH_FULL = 0.9  # of its area: a leftover as wide as its board
WORTH_RIPPED = 0.5  # a strip ripped from it


def area_kept(stock: Stock, bin_: Bin) -> float:
    """What the leftovers worth keeping weigh, in area of whole stock."""
    lengths = (b - a for a, b in free_lengths(stock, bin_.segments) if b - a >= stock.keep[0])
    kept = WORTH_FULL * sum(lengths) * stock.width
    for segment in bin_.segments:
        if segment.x1 - segment.x0 >= stock.keep[0]:
            bands = (b - a for a, b in free_widths(stock, segment) if b - a >= stock.keep[1])
            kept += WORTH_RIPPED * sum(bands) * (segment.x1 - segment.x0)
    return kept


def value_used(stock: Stock, bin_: Bin, strips: int) -> float:
    """Value of wood used up [money]; `strips`: total length of the panels' strips that lie in it."""
    used = stock.length * stock.width - area_kept(stock, bin_)
    return stock.rate * (used + OPENED + STRIP * strips)
