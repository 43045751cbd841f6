"""Shoulders that stand off: wood cut back round what goes in."""

from __future__ import annotations

from scantling.joinery.features import Cut
from scantling.joinery.meeting import Meeting

Span = tuple[float, float]


def shoulder_cuts(m: Meeting, runs: tuple[Span, ...], across: Span) -> tuple[Cut, ...]:
    """Cuts round tongues at `runs` by `across`, as deep as the joint's `stand off`; none without one."""
    stand_off = m.settings.stand_off
    if not stand_off:
        return ()
    low, high = m.area.low[m.across], m.area.high[m.across]
    blocks = [(m.along, (low, across[0])), (m.along, (across[1], high))]
    edges = [m.low, *(place for run in runs for place in run), m.high]
    blocks += [((edges[i], edges[i + 1]), across) for i in range(0, len(edges), 2)]
    return tuple(
        Cut(m.block(run, span, (0.0, -stand_off)), m.face, "shoulder", m.joint.id)
        for run, span in blocks
        if run[1] - run[0] > 0.01 and span[1] - span[0] > 0.01
    )
