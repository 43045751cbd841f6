"""Where a taper starts and what it leaves at its end, as measured on a part's own drawing."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.features import MachinedPart
from scantling.packet.frames import lean_angles
from scantling.packet.part_views import PartViews
from scantling.piece.model import Part

NEAR = 0.1  # mm
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class TaperMark:
    """`start`: from end 0. `far`: narrow at the far end, which reaches over `main` and `below`. [mm]"""

    start: float
    far: bool
    main: Span
    below: Span


def taper_run(part: Part) -> float:
    """From where the taper starts to the end it narrows to, along the part; 0 without a taper. [mm]"""
    taper = part.shape.taper
    return abs(part.box.face(taper.end) - taper.start) * part.true_ratio if taper else 0.0


def taper_mark(machined: MachinedPart, views: PartViews) -> TaperMark | None:
    """The taper as seen in the views; None without one, or along a leaning stick, whose ends are askew."""
    part = machined.part
    taper = part.shape.taper
    if taper is None or lean_angles(part) or taper.end not in views.frame.faces[:2]:
        return None
    at = list(part.box.centre)
    at[part.grain] = taper.start
    start = views.frame.place(part.placement.point((at[0], at[1], at[2])))[0]
    far = taper.end is views.frame.faces[1]
    end = views.size[0] if far else 0.0
    return TaperMark(start, far, _span(views, "main", end), _span(views, "below", end))


def _span(views: PartViews, view: str, end: float) -> Span:
    """How far the outline reaches across at an end."""
    seen = [v for segment in views.edges[view].visible for u, v in segment if abs(u - end) < NEAR]
    return (min(seen), max(seen)) if seen else (0.0, 0.0)
